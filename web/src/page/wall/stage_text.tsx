// What the stage shows, for people who do not see it.
import { CalmText } from "../controls/calm_text";
import { colourView } from "../state/colour/viewing";
import { unit } from "../state/page/settings";
import { foldPosition, scene, view, VIEWS } from "../state/page/view";
import { job, shown } from "../state/work/work";
import { placeWords } from "../state/photo/place_words";
import { stageWords } from "./stage_words";

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
  return <CalmText id="stage-text" words={words} />;
}
