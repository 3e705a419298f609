// Things of known size on the wall: their size, and finding or marking their corners.
import { RadioGroup } from "../../controls/choice";
import { FieldErrorText } from "../../controls/labelled_field";
import { scene } from "../../state/page/view";
import { unit } from "../../state/page/settings";
import { measured, wallPieces } from "../../state/photo/measured";
import { changeReference, CORNERS, findReference, REFERENCE, snapReference } from "../../state/photo/open_wall";
import { changeWall, tool, type WallWork } from "../../state/photo/wall_work";
import { type MarkedReference, ownSize, sizeKind, type SizeKind } from "../../state/photo/reference_size";
import { sizeSentence } from "../../state/photo/words";
import { roughCorners } from "../../../photo/marked_wall";
import { hungSize } from "../../../photo/placing";
import { WallLength } from "./wall_length";
import { say } from "../../../speech/on_page";

const KINDS: readonly { readonly value: SizeKind; readonly word: string }[] = [
  { value: "a4", word: say("A4") },
  { value: "letter", word: say("Letter") },
  { value: "own", word: say("Own size") },
];
/** As many as the core takes. */
const MOST = 8;

export function WallReferences({ work }: { readonly work: WallWork }) {
  const { references } = work;
  const [pieces] = wallPieces.value;
  return (
    <div class="part" id="wall-references" data-field={CORNERS}>
      <h3 class="minor">{say("What has a known size")}</h3>
      {references.map((reference, number) => (
        <Reference key={number} reference={reference} number={number} work={work} />
      ))}
      <FieldErrorText field={REFERENCE} />
      <FieldErrorText field={CORNERS} />
      {references.length < MOST && (
        <button
          type="button"
          class="button"
          id="add-reference"
          onClick={() => {
            changeWall({ references: [...references, { size: "a4", corners: roughCorners(work.photo.px) }] });
            tool.value = "corners";
            scene.value = "photo";
          }}
        >
          {say("Add another reference")}
        </button>
      )}
      <div aria-live={scene.value === "photo" ? "off" : "polite"} id="wall-size">
        {pieces !== undefined && measured.value !== undefined && (
          <p class="consequence">{sizeSentence(hungSize(pieces), measured.value, unit.value)}</p>
        )}
      </div>
    </div>
  );
}

interface ReferenceProps {
  readonly reference: MarkedReference;
  readonly number: number;
  readonly work: WallWork;
}

function Reference({ reference, number, work }: ReferenceProps) {
  const kind = sizeKind(reference.size);
  const name = work.references.length > 1 ? say("Reference {number}", { number: number + 1 }) : say("Reference");
  const resize = (size: string): void => {
    changeReference(number, { size });
    if (reference.corners === undefined) void findReference(number);
  };
  const own = ownSize(reference.size);
  return (
    <div class="field">
      <RadioGroup
        id={`reference-${number}`}
        label={name}
        value={kind}
        options={KINDS}
        choose={(chosen) => resize(chosen === "own" ? "80x80" : chosen)}
      />
      {kind === "own" && (
        <div class="pair">
          <WallLength
            field={`reference-${number}-width`}
            label={say("Its width")}
            value={own.width_mm}
            commit={(mm) => resize(`${mm}x${own.height_mm}`)}
          />
          <WallLength
            field={`reference-${number}-height`}
            label={say("Its height")}
            value={own.height_mm}
            commit={(mm) => resize(`${own.width_mm}x${mm}`)}
          />
        </div>
      )}
      <div class="row">
        <button
          type="button"
          class="button"
          data-does="mark"
          onClick={() => {
            if (reference.corners === undefined) changeReference(number, { corners: roughCorners(work.photo.px) });
            tool.value = "corners";
            scene.value = "photo";
          }}
        >
          {say("Mark its corners")}
        </button>
        {number === 0 && (
          <button type="button" class="button" data-does="find" onClick={() => void findReference(number)}>
            {say("Find them")}
          </button>
        )}
        <button
          type="button"
          class="button"
          data-does="snap"
          disabled={reference.corners === undefined}
          onClick={() => void snapReference(number)}
        >
          {say("Move them to the edges")}
        </button>
        {work.references.length > 1 && (
          <button
            type="button"
            class="button"
            onClick={() => changeWall({ references: work.references.filter((_, i) => i !== number) })}
          >
            {say("Remove it")}
          </button>
        )}
      </div>
    </div>
  );
}
