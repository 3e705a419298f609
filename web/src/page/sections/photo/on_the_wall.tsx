// The section about the client's own wall: its photograph, what of known size hangs there, and the piece on it.
import { JobControls } from "../../controls/job_controls";
import { ErrorText, FieldErrorText, NoteLines } from "../../controls/labelled_field";
import { OpenFile } from "../../controls/open_file";
import { canvasFailure, measured } from "../../state/photo/measured";
import { closeWall, chooseWallPhoto, PHOTO, photoNotes, SIZE, wallBusy } from "../../state/photo/open_wall";
import { wallWork } from "../../state/photo/wall_work";
import { scene } from "../../state/page/view";
import { lacksPicture } from "../../state/work/work";
import { InFront } from "./in_front";
import { WallLightFields } from "./light_fields";
import { WallPlace } from "./place_fields";
import { WallReferences } from "./references";
import { WallStill } from "./still";
import { say } from "../../../speech/on_page";

/** What the core reads. */
const ACCEPT = "image/jpeg,image/png,image/webp,image/tiff,.heic,.heif";

export function OnTheWallSection() {
  const now = wallWork.value;
  const open = (file: File): void => void chooseWallPhoto(file);
  return (
    <div
      id="photographed-wall"
      onDrop={(event) => {
        const file = event.dataTransfer?.files[0];
        if (file === undefined) return;
        event.preventDefault();
        open(file);
      }}
    >
      <p class="meaning">
        {say(
          "A photograph of the client's own wall, with a sheet of A4 or Letter paper taped flat to it, shows the piece there at true size. Where and when it was taken is left out before it is kept; it never leaves this page.",
        )}
      </p>
      <div class="row">
        <JobControls>
          <OpenFile
            id="open-wall"
            label={now === undefined ? say("Open a photograph") : say("Open another photograph")}
            accept={ACCEPT}
            open={open}
          />
          <OpenFile id="take-wall" label={say("Take a photograph")} accept="image/*" open={open} camera />
        </JobControls>
        {now !== undefined && scene.value !== "photo" && (
          <button type="button" class="button" id="show-wall" onClick={() => (scene.value = "photo")}>
            {say("Show it")}
          </button>
        )}
        {now !== undefined && (
          <JobControls>
            <button type="button" class="button" id="close-wall" onClick={closeWall}>
              {say("Remove it")}
            </button>
          </JobControls>
        )}
      </div>
      <p class="consequence" aria-live="polite">
        {wallBusy.value}
      </p>
      <FieldErrorText field={PHOTO} />
      {now !== undefined && (
        <>
          <NoteLines notes={photoNotes.value} />
          <JobControls>
            <WallReferences work={now} />
          </JobControls>
          <FieldErrorText field={SIZE} />
          {canvasFailure.value && <ErrorText why={canvasFailure.value} alert />}
          {lacksPicture.value && (
            <p class="consequence">{say("The picture of this job is not open, so nothing hangs there.")}</p>
          )}
          {measured.value !== undefined && (
            <>
              <NoteLines notes={measured.value.notes} />
              <JobControls>
                <WallPlace work={now} />
                <WallLightFields work={now} />
                <InFront work={now} />
              </JobControls>
              <WallStill />
            </>
          )}
        </>
      )}
    </div>
  );
}
