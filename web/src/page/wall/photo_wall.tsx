// The photographed wall in the place of the stage: one view, or one for each variant of a comparison.
import { effect } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";
import { hungSize } from "../../photo/placing";
import type { Corners } from "../../photo/plane";
import type { PhotoState } from "../../photo/state";
import type { MeasureWallReply } from "../../contract/types";
import type { StagePiece } from "../../stage/types";
import { job } from "../state/work/work";
import { paneGrid, paneTemplate } from "../../stage/panes/panes";
import { unit } from "../state/page/settings";
import { PHOTO_HANDS } from "../state/photo/hands";
import { measured, seenLook, seenWall, wallPanes } from "../state/photo/measured";
import { kindOf } from "../state/work/file_kinds";
import { chooseWallPhoto } from "../state/photo/open_wall";
import { brushClears, brushShare, tool, wallImage, wallWork } from "../state/photo/wall_work";
import { readOnly } from "../state/keeping/mode";
import { captionsHighPx } from "../state/page/view";
import { cornerLabel, edgeLabel, pieceSentences } from "../state/photo/words";
import { say } from "../../speech/on_page";

export function PhotoWall() {
  const host = useRef<HTMLDivElement>(null);
  useEffect(() => {
    const element = host.current;
    if (element === null) return;
    let end = (): void => {};
    let ended = false;
    void import("../../photo/view").then(({ PhotoView }) => {
      if (ended) return;
      let views: InstanceType<typeof PhotoView>[] = [];
      const layOut = (count: number): void => {
        element.style.gridTemplate = paneTemplate(
          paneGrid(count, element.clientWidth / Math.max(1, element.clientHeight)),
        );
      };
      const watcher = new ResizeObserver(() => layOut(Math.max(1, views.length)));
      watcher.observe(element);
      const stop = effect(() => {
        const count = Math.max(1, wallPanes.value.length);
        if (views.length !== count) {
          for (const view of views) view.dispose();
          element.replaceChildren();
          layOut(count);
          views = Array.from({ length: count }, () => {
            const place = document.createElement("div");
            place.className = "photo-pane";
            element.append(place);
            return new PhotoView(place, PHOTO_HANDS, (frames) => (place.dataset["frames"] = String(frames)));
          });
        }
        for (const [i, view] of views.entries()) {
          const state = stateOf(i);
          if (state !== undefined) view.update(state);
        }
      });
      end = () => {
        stop();
        watcher.disconnect();
        for (const view of views) view.dispose();
      };
    });
    return () => {
      ended = true;
      end();
    };
  }, []);
  return (
    <div
      class="photo-wall"
      id="photo-wall"
      ref={host}
      style={{ "--captions-high": `${captionsHighPx.value}px` }}
      onDrop={(event) => {
        const [file, ...others] = event.dataTransfer?.files ?? [];
        // A job, or several files at once, are the page's.
        if (file === undefined || others.length > 0 || kindOf(file) !== "picture") return;
        event.preventDefault();
        void chooseWallPhoto(file);
      }}
    />
  );
}

/** What one of the views shows. */
function stateOf(pane: number): PhotoState | undefined {
  const [now, image, seen] = [wallWork.value, wallImage.value, seenWall.value];
  if (now === undefined || image === undefined) return undefined;
  const pieces = wallPanes.value[pane] ?? [];
  const references: readonly Corners[] = now.references.flatMap(({ corners }) =>
    corners === undefined ? [] : [corners],
  );
  const { px } = now.photo;
  return {
    photo: photoOf(image, px),
    tool: readOnly.value ? "none" : tool.value,
    references,
    ...(seen === undefined ? {} : { wall: seen }),
    pieces,
    at: now.at,
    look: seenLook.value,
    edges: now.edges,
    strokes: now.strokes,
    radiusPx: brushShare.value * Math.max(...px),
    clears: brushClears.value,
    words: {
      piece: say("The piece. {pieceSentences} Arrow keys move it by 1 mm, with Shift by 10 mm.", {
        pieceSentences:
          pieces.length === 0
            ? ""
            : pieceSentences(now.at, hungSize(pieces), measuredFor(pieces), now.edges, unit.value),
      }),
      corner: (reference, corner) =>
        cornerLabel(reference, corner, references.length, references[reference]?.[corner] ?? [0, 0]),
      edge: edgeLabel,
    },
  };
}

/** What was measured, for a variant of another size: a larger one is less sure, about as it is larger. */
function measuredFor(pieces: readonly StagePiece[]): MeasureWallReply | undefined {
  const [now, own, width] = [measured.value, job.value?.face.width_mm, pieces[0]?.sizes.faceWidthMm];
  if (now === undefined || own === undefined || width === undefined || width <= own) return now;
  const by = width / own;
  const { width_within_mm, height_within_mm } = now.report;
  const report = { ...now.report, width_within_mm: by * width_within_mm, height_within_mm: by * height_within_mm };
  return { ...now, report };
}

/** The same object for the same photograph, so that it is drawn once. */
let latest: PhotoState["photo"] | undefined;
function photoOf(image: ImageBitmap, px: PhotoState["photo"]["px"]): PhotoState["photo"] {
  if (latest?.image !== image) latest = { image, px };
  return latest;
}
