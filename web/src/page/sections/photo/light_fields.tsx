// How the piece takes on the room's light, and its shadow.
import { changeWall, type WallWork } from "../../state/photo/wall_work";
import { percentShown } from "../../../units";
import { say } from "../../../speech/on_page";

export function WallLightFields({ work }: { readonly work: WallWork }) {
  return (
    <div class="part" id="wall-light">
      <h3 class="minor">{say("Light")}</h3>
      <Share
        id="wall-room-light"
        label={say("Room's light on the piece")}
        value={work.roomLight}
        disabled={work.proofColours}
        set={(roomLight) => changeWall({ roomLight })}
      />
      <label class="tick">
        <input
          type="checkbox"
          id="wall-proof-colours"
          checked={work.proofColours}
          onChange={(event) => changeWall({ proofColours: event.currentTarget.checked })}
        />
        <span>{say("Colours of the proof")}</span>
      </label>
      <p class="meaning">
        {work.proofColours
          ? say("The print keeps the colours of the proof; the room's brightness and tint leave it alone.")
          : say("Brightness and tint are those of the paper in the photograph and of the wall round it.")}
      </p>
      <Share id="wall-shadow" label={say("Shadow")} value={work.shadow} set={(shadow) => changeWall({ shadow })} />
    </div>
  );
}

interface ShareProps {
  readonly id: string;
  readonly label: string;
  readonly value: number;
  readonly disabled?: boolean;
  readonly set: (value: number) => void;
}

export function Share({ id, label, value, disabled = false, set }: ShareProps) {
  return (
    <div class="field">
      <label class="field-label" for={id}>
        {label}
      </label>
      <div class="field-entry">
        <input
          type="range"
          class="slider"
          id={id}
          min={0}
          max={1}
          step={0.05}
          value={value}
          disabled={disabled}
          style={{ "--share": value }}
          aria-valuetext={percentShown(value)}
          onInput={(event) => set(event.currentTarget.valueAsNumber)}
        />
        <span class="entry-unit">{percentShown(value)}</span>
      </div>
    </div>
  );
}
