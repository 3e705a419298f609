// A still of the piece on the photographed wall.
import { MadeReport, Outcome, ProgressBar } from "../../controls/making";
import { variantsOnStage } from "../../state/compare/comparison";
import { bytesShown } from "../../state/layout/consequences";
import { saveWallStills, wallStill } from "../../state/photo/wall_still";

export function WallStill() {
  const now = wallStill.now.value;
  const many = variantsOnStage.value.length;
  return (
    <div class="part" id="wall-still">
      <h3 class="minor">Still</h3>
      {now.state === "making" ? (
        <ProgressBar id="wall-still-progress" progress={now} stop={() => wallStill.stop()} />
      ) : (
        <button type="button" class="button" id="save-wall-still" onClick={() => void saveWallStills()}>
          {many > 1 ? `Save ${many} stills on the wall` : "Save the still on the wall"}
        </button>
      )}
      <Outcome now={now} stopped="no further still was saved">
        {(files) =>
          files.map((made) => (
            <MadeReport key={made.report.file} made={made}>
              <p>
                <strong>{made.report.file}</strong> was saved and opened again: {made.report.still_px[0]} ×{" "}
                {made.report.still_px[1]} pixels, {bytesShown(made.report.bytes)}.
              </p>
            </MadeReport>
          ))
        }
      </Outcome>
    </div>
  );
}
