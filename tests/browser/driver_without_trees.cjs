/**
 * Loaded into Playwright's driver before its own program (NODE_OPTIONS): whenever an `expect` looks and does not
 * yet find what it waits for, the driver writes down the accessibility tree of the element, or of the whole page,
 * for the message of a failure. That is a tenth of what the tests cost, and nobody reads it: the message holds
 * what was expected and what was there without it. Where the driver does it otherwise, nothing is changed.
 */
"use strict";
const { Module } = require("node:module");

const WRITES_TREE = "ariaSnapshotForExpectFailure(element, options) {";
const compile = Module.prototype._compile;
Module.prototype._compile = function (text, file, ...rest) {
  const lighter = file.endsWith("coreBundle.js") ? text.replaceAll(WRITES_TREE, `${WRITES_TREE} return;`) : text;
  return compile.call(this, lighter, file, ...rest);
};
