// The stage on the page, for what asks it for pictures; none while it is loading, or where it cannot be.
import { signal } from "@preact/signals";
import type { Stage } from "../../stage/types";

export const theStage = signal<Stage | undefined>(undefined);
