// A still of the piece on the photographed wall.
import { MadeReport, Outcome, ProgressBar } from "../../controls/making";
import { variantsOnStage } from "../../state/compare/comparison";
import { bytesShown } from "../../state/layout/consequences";
import { saveWallStills, wallStill } from "../../state/photo/wall_still";
import { pixelsShown } from "../../../units";
import { say, sayParts } from "../../../speech/on_page";

export function WallStill() {
  const now = wallStill.now.value;
  const many = variantsOnStage.value.length;
  return (
    <div class="part" id="wall-still">
      <h3 class="minor">{say("Still")}</h3>
      {now.state === "making" ? (
        <ProgressBar id="wall-still-progress" progress={now} stop={() => wallStill.stop()} />
      ) : (
        <button type="button" class="button" id="save-wall-still" onClick={() => void saveWallStills()}>
          {many > 1 ? say("Save {many} stills on the wall", { many }) : say("Save the still on the wall")}
        </button>
      )}
      <Outcome now={now} stopped={say("no further still was saved")}>
        {(files) =>
          files.map((made) => (
            <MadeReport key={made.report.file} made={made}>
              <p>
                {sayParts("{file} was saved and opened again: {size}, {bytes}.", {
                  file: <strong>{made.report.file}</strong>,
                  size: pixelsShown(...made.report.still_px),
                  bytes: bytesShown(made.report.bytes),
                })}
              </p>
            </MadeReport>
          ))
        }
      </Outcome>
    </div>
  );
}
