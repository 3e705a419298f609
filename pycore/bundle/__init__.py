"""Bundles: a job with its picture, its profile and its wall photograph in one file."""
