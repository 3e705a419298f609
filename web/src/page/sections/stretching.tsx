// The stretching section: the steps from print to hung canvas, what to order for it, with the cautions where a step can hurt someone.
import type { Job } from "../../contract/types";
import { Practice } from "../controls/labelled_field";
import { foldSteps } from "../state/page/view";
import { job, shown } from "../state/work/work";
import { Order } from "./order";
import { Ticket } from "./ticket";
import { say } from "../../speech/on_page";

interface Caution {
  readonly about: string;
  readonly text: string;
}

const CAUTIONS: readonly Caution[] = [
  {
    about: say("Blades"),
    text: say(
      "Cut away from your body along a steel rule, hold the rule behind the blade, and cap the knife when you put it down.",
    ),
  },
  {
    about: say("Staple gun"),
    text: say("Wear eye protection, keep fingers off the far side of the bar, and unload it before you clear a jam."),
  },
  {
    about: say("Coating"),
    text: say(
      "Solvent coatings need ventilation, a respirator that suits them, and no flame or spark near; read the maker's safety data sheet first.",
    ),
  },
  {
    about: say("Hanging"),
    text: say("Fittings, wire and wall plug must each be rated for the weight and for the wall."),
  },
];

/** What is cut from the corner squares before they are folded; nothing where they stay whole. */
function cutOf({ wrap }: Job): string | undefined {
  if (wrap.finish === "trimmed") return say("Cut the corner squares away, but for the tabs.");
  return wrap.corners === "cut-back" ? say("Cut away the back's part of each corner square.") : undefined;
}

export function StretchingSection() {
  const now = job.value;
  if (now === undefined) return null;
  const cornersCut = cutOf(now);
  return (
    <>
      <ol class="steps">
        <li>
          {say("Square the bars: both diagonals are equally long.")}
          <Practice />
        </li>
        <li>
          {say("Let the print dry for a day before you coat it.")}
          <Practice />
        </li>
        <li>
          {now.canvas.coated
            ? say("Coat it; let the coat dry.")
            : say("Coat it where it meets moisture or hands; let the coat dry.")}
          <Practice />
        </li>
        <li>
          {now.print.marks
            ? say("Trim the canvas to its size, along the trim corners where the print has them.")
            : say("Trim the canvas to its size: the print has no trim corners, so measure from the face outwards.")}
        </li>
        <li>{say("Lay it face down, and rule the front edges on its back.")}</li>
        {cornersCut !== undefined && <li>{cornersCut}</li>}
        <li>{say("Set the bars midway between the ruled lines, face to face.")}</li>
        {foldSteps.value.map((stage) => (
          <li key={stage.name}>{stage.label}.</li>
        ))}
        {shown.value?.bars.staples === 0 ? (
          <li>{say("The turn-over has no room for staples: glue it, or hold it by a frame.")}</li>
        ) : (
          <li>
            {say("Staple each side as it goes on to the back, from its middle outwards, corners last, pulling evenly.")}
            <Practice />
          </li>
        )}
        <li>{say("Fit the hanging hardware, and hang it.")}</li>
      </ol>
      <Order />
      <h3 class="minor">{say("Cautions")}</h3>
      <dl class="cautions">
        {CAUTIONS.map(({ about, text }) => (
          <div key={about}>
            <dt>{about}</dt>
            <dd>{text}</dd>
          </div>
        ))}
      </dl>
      <p class="aside">{say("Local codes, the makers' own sheets and licensed practice come first.")}</p>
      <Ticket />
    </>
  );
}
