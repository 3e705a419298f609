// The picture section: which picture, which part of it, and for whom.
import { JobControls } from "../../controls/job_controls";
import { Consequence, FieldErrorText } from "../../controls/labelled_field";
import { TextField } from "../../controls/fields";
import { OpenFile } from "../../controls/open_file";
import { More } from "../../controls/section";
import { cutAway, fineness } from "../../state/layout/consequences";
import { setText, swapFace, turnPicture } from "../../state/work/edit";
import { openFile } from "../../state/work/files";
import { fieldId } from "../../state/page/fields";
import { propose } from "../../state/work/run";
import { isDemo, job, picture, shown } from "../../state/work/work";
import { CropEditor } from "./crop";
import { pixelsShown } from "../../../units";
import { say, sayParts } from "../../../speech/on_page";

export function PictureSection() {
  const now = job.value;
  const layout = shown.value?.layout;
  if (now === undefined || layout === undefined) return null;
  const fine = fineness(layout);
  return (
    <>
      <div class="field" data-field="picture.file">
        <JobControls>
          <OpenPicture />
        </JobControls>
        <PictureFacts />
        <FieldErrorText field="picture.file" />
      </div>
      <CropEditor />
      <Consequence text={cutAway(layout)} />
      <Consequence text={fine?.text} practice={fine?.practice} />
      <JobControls>
        <div class="row">
          <button
            type="button"
            class="button"
            onClick={() =>
              void propose({ field: "picture.turn", label: say("rotating the picture"), change: turnPicture })
            }
          >
            {say("Rotate 90°")}
          </button>
          <OtherWay />
        </div>
      </JobControls>
      <FieldErrorText field="picture.turn" />
      <More summary={say("Name, client, remarks")}>
        <TextField
          field="name"
          label={say("Name of the piece")}
          value={now.name}
          set={(name) => setText({ name })}
          consequence={say(
            "It stands in the text line of the print file and names the file. It follows the picture until you type one.",
          )}
        />
        <TextField field="client" label={say("Client")} value={now.client} set={(client) => setText({ client })} />
        <TextField field="notes" label={say("Remarks")} value={now.notes} set={(notes) => setText({ notes })} />
      </More>
    </>
  );
}

/** The button that asks for a file; the page also takes one that is dropped on it or pasted. */
export function OpenPicture() {
  return (
    <>
      <OpenFile
        id={fieldId("picture.file")}
        look="button button-main"
        label={say("Open a picture")}
        entry="picture"
        accept="image/jpeg,image/png,image/tiff,image/webp,.jpg,.jpeg,.png,.tif,.tiff,.webp"
        open={(file) => void openFile(file)}
      />
      <span class="aside">
        {say("or drop it anywhere, or paste it. JPEG, PNG, TIFF or WebP; it stays on this machine.")}
      </span>
    </>
  );
}

function PictureFacts() {
  const info = picture.value?.info;
  if (info === undefined) return null;
  const profile = info.profile_assumed ? say("no usable profile, so sRGB is assumed") : info.profile_name;
  return (
    <p class="facts">
      {sayParts("{file} {size}, {format}, {mode}, {profile}", {
        file: <strong>{info.file}</strong>,
        size: pixelsShown(info.width_px, info.height_px),
        format: info.format,
        mode: info.mode,
        profile,
      })}
      {isDemo.value && <span class="tag">{say("demo")}</span>}
    </p>
  );
}

/** Offered where the picture stands upright and the face lies, or the other way round. */
function OtherWay() {
  const info = picture.value?.info;
  const now = job.value;
  if (info === undefined || now === undefined) return null;
  const sideways = now.picture.turn === 90 || now.picture.turn === 270;
  const [wide, high] = sideways ? [info.height_px, info.width_px] : [info.width_px, info.height_px];
  if ((wide - high) * (now.face.width_mm - now.face.height_mm) >= 0) return null;
  return (
    <button
      type="button"
      class="button"
      onClick={() =>
        void propose({ field: "face.width_mm", label: say("swapping width and height"), change: swapFace })
      }
    >
      {say("Swap width and height to suit the picture")}
    </button>
  );
}
