// A text that follows the stage. It waits until nothing has changed for a moment, so that a drag says one thing.
import { useEffect, useState } from "preact/hooks";
import { colourView } from "../state/colour/viewing";
import { unit } from "../state/page/settings";
import { foldPosition, scene, view, VIEWS } from "../state/page/view";
import { job, shown } from "../state/work/work";
import { placeWords } from "../state/photo/place_words";
import { stageWords } from "./stage_words";

const CALM_MS = 700;

export function StageText() {
  const now = job.value;
  const words =
    now === undefined || shown.value === undefined
      ? ""
      : stageWords({
          job: now,
          unit: unit.value,
          scene: scene.value,
          fold: foldPosition.value,
          view: VIEWS.find(({ value }) => value === view.value)?.word,
          colours: colourView.value,
          place: placeWords() ?? "",
        });
  const [calm, setCalm] = useState("");
  useEffect(() => {
    const timer = setTimeout(() => setCalm(words), CALM_MS);
    return () => clearTimeout(timer);
  }, [words]);
  return (
    <p class="visually-hidden" id="stage-text" role="status">
      {calm}
    </p>
  );
}
