// The room section: the wall, its light, and what of known size stands beside the piece.
import { RadioGroup } from "../controls/choice";
import { capitalised } from "../state/page/fields";
import { BESIDES, COOLEST, LIGHTS, surround, surroundings, WALLS, WARMEST } from "../state/page/surroundings";
import { say } from "../../speech/on_page";

/** What a light of so many kelvin is called; common practice. */
function lightWord(kelvin: number): string {
  if (kelvin < 3300) return say("warm, like a lamp");
  if (kelvin < 4500) return say("warm white");
  if (kelvin <= 5400) return say("like the light of the proof");
  return say("cool daylight");
}

export function RoomSection() {
  const now = surroundings.value;
  const beside = BESIDES.find(({ value }) => value === now.beside)?.meaning ?? "";
  return (
    <div id="surroundings">
      <div class="field">
        <RadioGroup
          id="wall-colour"
          label={say("Wall")}
          value={now.wall}
          options={WALLS}
          choose={(wall) => surround({ wall })}
        />
      </div>
      <div class="field">
        <RadioGroup
          id="light-from"
          label={say("Light from")}
          value={now.light_from}
          options={LIGHTS}
          choose={(light_from) => surround({ light_from })}
        />
      </div>
      <Temperature />
      <div class="field">
        <label class="tick">
          <input
            type="checkbox"
            id="flat-light"
            aria-describedby="flat-light-says"
            checked={now.flat_light}
            onChange={(event) => surround({ flat_light: event.currentTarget.checked })}
          />
          <span>{say("Flat light")}</span>
        </label>
        <p class="meaning" id="flat-light-says">
          {now.flat_light
            ? say("The printed side shows no shade, weave or colour of the light: every colour is that of the proof.")
            : say("Shows the printed side without shade and weave, in the colours of the proof.")}
        </p>
      </div>
      <div class="field">
        <RadioGroup
          id="beside"
          label={say("Beside it")}
          value={now.beside}
          options={BESIDES}
          choose={(chosen) => surround({ beside: chosen })}
        />
        <p class="meaning">
          {capitalised(beside)}
          {now.beside === "nothing" ? "." : say(", at the same scale; the piece hangs with its middle at 1.5 m.")}
        </p>
      </div>
      <p class="meaning">{say("These are settings of the page, not of the job.")}</p>
    </div>
  );
}

function Temperature() {
  const { light_kelvin: kelvin, flat_light: flat } = surroundings.value;
  const share = (kelvin - WARMEST) / (COOLEST - WARMEST);
  return (
    <div class="field">
      <label class="field-label" for="light-kelvin">
        {say("Colour of the light")}
      </label>
      <div class="field-entry">
        <input
          type="range"
          class="slider"
          id="light-kelvin"
          min={WARMEST}
          max={COOLEST}
          step={100}
          value={kelvin}
          disabled={flat}
          style={{ "--share": share }}
          aria-valuetext={say("{kelvin} kelvin, {lightWord}", { kelvin, lightWord: lightWord(kelvin) })}
          onInput={(event) => surround({ light_kelvin: event.currentTarget.valueAsNumber })}
        />
      </div>
      <p class="consequence">
        {say("{kelvin} K, {lightWord}{words}. It looks as it does to an eye that is used to it.", {
          kelvin,
          lightWord: lightWord(kelvin),
          words: flat ? say("; flat light has no colour") : "",
        })}
      </p>
    </div>
  );
}
