// The profile of this canvas on this printer, or the illustrative one in its place.
import { JobControls } from "../../controls/job_controls";
import { GlossaryWord } from "../../controls/glossary_word";
import { FieldErrorText, NoteLines, ErrorText } from "../../controls/labelled_field";
import { OpenFile } from "../../controls/open_file";
import { lookQuery } from "../../state/colour/look";
import { openingProfile, chooseIllustrativeProfile, openProfileFile } from "../../state/colour/open_profile";
import { profileReplies, ILLUSTRATIVE } from "../../state/colour/profiles";
import { ILLUSTRATION, ILLUSTRATIVE_NAME, labShown, profileKind, volumeShown } from "../../state/colour/words";
import { fieldId, fieldErrors } from "../../state/page/fields";
import { job } from "../../state/work/work";
import { say, sayParts } from "../../../speech/on_page";

const FIELD = "colour.profile";

export function CanvasProfile() {
  const name = job.value?.colour.profile;
  if (name === undefined) return null;
  return (
    <div class="field" data-field={FIELD}>
      <h3 class="minor" id="profile-title">
        {sayParts("Canvas {link}", { link: <GlossaryWord entry="profile">{say("profile")}</GlossaryWord> })}
      </h3>
      <Facts name={name} />
      <JobControls>
        <div class="row">
          <OpenProfile />
          {name !== ILLUSTRATIVE && (
            <button type="button" class="button" onClick={chooseIllustrativeProfile}>
              {say("Use the illustrative canvas")}
            </button>
          )}
        </div>
      </JobControls>
      <p class="aside" role="status">
        {openingProfile.value ? say("Reading the profile.") : say("An .icc or .icm file; drop or paste it too.")}
      </p>
      <FieldErrorText field={FIELD} />
      <Refused />
    </div>
  );
}

/** Shown when the job names a profile that was never opened here, or one that cannot proof it. */
function Refused() {
  const why = lookQuery.failure.value;
  if (why === undefined || FIELD in fieldErrors.value) return null;
  return <ErrorText why={why} alert />;
}

function OpenProfile() {
  return (
    <OpenFile
      id={fieldId(FIELD)}
      label={say("Open a canvas profile")}
      entry="profile"
      accept=".icc,.icm,application/vnd.iccprofile"
      open={(file) => void openProfileFile(file)}
    />
  );
}

function Facts({ name }: { readonly name: string }) {
  const profile = profileReplies.value[name];
  return (
    <>
      {name === ILLUSTRATIVE && <p class="illustration">{ILLUSTRATION}</p>}
      {profile === undefined ? (
        <p class="profile-name">{name !== ILLUSTRATIVE && name}</p>
      ) : (
        <dl class="measures" aria-labelledby="profile-title">
          <dt>{say("Profile")}</dt>
          <dd>
            <strong>{profile.illustration ? ILLUSTRATIVE_NAME : profile.description}</strong>
            {profile.illustration || profile.description === profile.file ? "" : `, ${profile.file}`}
          </dd>
          <dt>{say("Kind")}</dt>
          <dd>{profileKind(profile)}</dd>
          <dt>{say("White, L*a*b*")}</dt>
          <dd>{labShown(profile.white_lab)}</dd>
          <dt>{say("Black, L*a*b*")}</dt>
          <dd>{labShown(profile.black_lab)}</dd>
          <dt>{say("Gamut")}</dt>
          <dd>{volumeShown(profile.gamut_volume)}</dd>
        </dl>
      )}
      {profile !== undefined && !profile.illustration && <NoteLines notes={profile.notes} />}
    </>
  );
}
