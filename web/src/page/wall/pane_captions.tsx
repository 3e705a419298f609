// A caption under each variant on the wall: its name and its figures.
import { JobControls } from "../controls/job_controls";
import { useSignal } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";
import type { VariantReply } from "../../contract/types";
import { paneGrid, paneTemplate } from "../../stage/panes/panes";
import { type Choice, KINDS } from "../state/compare/plan";
import { choices, compared, keepChoice, outdated } from "../state/compare/comparison";
import { figuresOf } from "../state/compare/figures";
import { unit } from "../state/page/settings";
import { wallPanes } from "../state/photo/measured";
import { captionsHighPx, foldPosition, scene, wallState } from "../state/page/view";
import { say } from "../../speech/on_page";

/** Between a caption and what is above it. */
const MARGIN_PX = 4;

export function PaneCaptions() {
  const now = compared.value;
  if (now === undefined) return null;
  // Before its corners are marked a photograph shows no variant.
  const hangs =
    scene.value === "photo"
      ? wallPanes.value.length === now.variants.length
      : scene.value === "wall" && wallState.value !== "none";
  if (!hangs) return null;
  return <Captions />;
}

function Captions() {
  const host = useRef<HTMLDivElement>(null);
  const aspect = useSignal(1);
  useEffect(() => {
    const element = host.current;
    if (element === null) return;
    const watch = new ResizeObserver(() => {
      const { clientWidth, clientHeight } = element;
      if (clientHeight > 0) aspect.value = clientWidth / clientHeight;
    });
    watch.observe(element);
    return () => watch.disconnect();
  }, [aspect]);
  const [now, named] = [compared.value, choices.value];
  // Not at every step of the fold: the view would be fitted anew each time.
  useEffect(() => leaveRoomFor(host.current), [now, named]);
  if (now === undefined) return null;
  const grid = paneGrid(now.variants.length, aspect.value);
  return (
    <div
      class="pane-captions"
      ref={host}
      style={{ gridTemplate: paneTemplate(grid) }}
      data-outdated={outdated.value}
      data-spread={scene.value === "wall" && foldPosition.value < 1}
      data-scene={scene.value}
      role="group"
      aria-label={say("Variants")}
    >
      {now.variants.map((variant, place) => {
        const choice = named[place];
        return choice && <Caption key={choice.label} variant={variant} choice={choice} />;
      })}
      {grid.columns * grid.rows > now.variants.length && <div class="pane-rest" />}
    </div>
  );
}

/** Say how high the captions are, so that canvases and photographs end above them. */
function leaveRoomFor(captions: HTMLElement | null): (() => void) | undefined {
  if (captions === null) return undefined;
  const all = [...captions.querySelectorAll<HTMLElement>(".pane-caption")];
  const watch = new ResizeObserver(() => {
    captionsHighPx.value = Math.max(...all.map((caption) => caption.offsetHeight)) + MARGIN_PX;
  });
  for (const caption of all) watch.observe(caption);
  return () => {
    watch.disconnect();
    captionsHighPx.value = 0;
  };
}

function Caption({ variant, choice }: { readonly variant: VariantReply; readonly choice: Choice }) {
  const now = compared.value;
  return (
    <section class="pane-caption" aria-label={choice.label}>
      <p class="pane-label">
        <strong>{choice.label}</strong>
        <JobControls>
          <button
            type="button"
            class="link"
            title={now && say("Makes it the job's {one}", { one: KINDS[now.plan.kind].one })}
            aria-label={say("Keep this one: {label}", { label: choice.label })}
            onClick={() => void keepChoice(choice)}
          >
            {say("Keep this one")}
          </button>
        </JobControls>
      </p>
      <dl class="pane-figures">
        {figuresOf(variant, unit.value, now?.variants ?? []).map(({ name, head, text }) => (
          <div key={name} data-figure={name} data-bad={name === "fits" && !variant.layout.sheet.fits}>
            <dt>{head}</dt>
            <dd>{text}</dd>
          </div>
        ))}
      </dl>
    </section>
  );
}
