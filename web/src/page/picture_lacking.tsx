// A note that stays while the job's own picture is not at hand: the canvas is empty, and nothing is made of it.
import { JobControls } from "./controls/job_controls";
import { pictureFile } from "./state/work/pictures";
import { takeOfferedPicture } from "./state/work/files";
import { focusField } from "./state/page/fields";
import { lacksPicture, work } from "./state/work/work";
import { say } from "../speech/on_page";

export function PictureLacking() {
  const now = work.value;
  if (now === undefined || !lacksPicture.value) return null;
  const { file } = now.job.picture;
  const offered = now.offered === undefined ? undefined : pictureFile(now.offered);
  return (
    <li class="note note-stop" id="picture-lacking">
      <p class="note-head">
        <svg class="sign" viewBox="0 0 16 16" aria-hidden="true">
          <rect x="2" y="2" width="12" height="12" />
        </svg>
        <span class="note-severity">{say("Picture missing")}</span>
      </p>
      <p class="note-message">
        {say("{words} Nothing is printed or sent to a client until there is one.{offered}", {
          words:
            file === ""
              ? say("This job names no picture, so the canvas is empty.")
              : say("The picture of this job, {file}, is not open, so the canvas is empty.", { file }),
          offered: offered?.name === file ? say(" The open picture has the same name, but other content.") : "",
        })}
      </p>
      <p class="note-remedy">
        <button type="button" class="link" onClick={() => focusField("picture.file")}>
          {say("Go to picture")}
        </button>
        {offered !== undefined && (
          <>
            {" "}
            <JobControls>
              <button type="button" class="link" id="use-picture" onClick={() => void takeOfferedPicture()}>
                {say("Use this picture: {offered}", { offered: offered.name })}
              </button>
            </JobControls>
          </>
        )}
      </p>
    </li>
  );
}
