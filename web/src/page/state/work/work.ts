// The current work: history, picture, and the content of the stage, as signals.
import { computed, effect, signal } from "@preact/signals";
import type {
  BarsReport,
  Face,
  FoldReply,
  Job,
  Layout,
  Note,
  PanelPlace,
  PictureInfo,
  ShowReply,
} from "../../../contract/types";
import type { StageFold, StageTexture } from "../../../stage/types";
import { type History, redoLabel, undoLabel } from "./history";
import { worstFirst } from "../page/notes";
import { NO_PICTURE } from "./pictures";

/** A job and the picture that it is shown with. */
export interface Work {
  readonly job: Job;
  /** Which of the pictures opened since the page was loaded; `NO_PICTURE` while the job's own is not at hand. */
  readonly picture: number;
  /** The demo, until a picture or a job of one's own is opened. */
  readonly demo: boolean;
  /** A picture that may take the place of the job's own, which is not at hand. */
  readonly offered?: number;
  /** The face that the page has proposed. */
  readonly proposed?: Face;
}

/** A picture as the core opened it. */
export interface OpenPicture {
  readonly id: number;
  readonly info: PictureInfo;
  readonly thumbnail: ImageData;
}

/** The content of the stage. */
export interface Shown {
  /** The reply that it is from, with the parts of those before it that it has left out. */
  readonly sent: ShowReply;
  readonly layout: Layout;
  readonly bars: BarsReport;
  readonly texture?: StageTexture;
  /** The texture's values are of the picture's own space, not the screen's. */
  readonly pictureEncoded: boolean;
  readonly fold?: StageFold;
  /** One where there is no group. */
  readonly panels: readonly PanelPlace[];
  readonly foldNotes: readonly Note[];
  readonly bulk: FoldReply["bulk"];
  readonly worker_ms: number;
}

export const history = signal<History<Work> | undefined>(undefined);
export const picture = signal<OpenPicture | undefined>(undefined);
export const shown = signal<Shown | undefined>(undefined);
/** How many changes are on their way to the stage. */
export const waiting = signal(0);
/** The label of the running call that changes the stage; empty when there is none. */
export const busy = signal("");

export const work = computed(() => history.value?.present.state);
export const job = computed(() => work.value?.job);
/** The job's picture is not at hand: the canvas is empty, and nothing is made of it. */
export const lacksPicture = computed(() => work.value?.picture === NO_PICTURE);
export const isDemo = computed(() => work.value?.demo ?? true);
export const toUndo = computed(() => (history.value ? undoLabel(history.value) : undefined));
export const toRedo = computed(() => (history.value ? redoLabel(history.value) : undefined));

/** All notes of the job and the picture, worst first. */
export const notes = computed(() =>
  worstFirst([
    ...(shown.value?.layout.notes ?? []),
    ...(shown.value?.foldNotes ?? []),
    ...(picture.value?.info.notes ?? []),
  ]),
);

/** Resolves with the current work, as soon as there is one. */
export function firstWork(): Promise<Work> {
  return new Promise((resolve) => {
    const end = effect(() => {
      const now = work.value;
      if (now === undefined) return;
      resolve(now);
      queueMicrotask(() => end());
    });
  });
}
