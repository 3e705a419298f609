// The clipped colours in groups: as filed, as printed, how much and how badly; each lights up its place.
import type { ClipGroup } from "../../contract/types";
import { lightUp, lit } from "../state/colour_clip";
import { deShown, shareShown } from "../state/colour_words";
import { upper } from "../state/messages";

export function ClipGroups({ groups }: { readonly groups: readonly ClipGroup[] }) {
  return (
    <>
      <h4 class="minor" id="groups-title">
        Clipped colours
      </h4>
      <ul class="groups" aria-labelledby="groups-title">
        {groups.map((group) => (
          <OneGroup key={group.name} group={group} pressed={lit.value?.name === group.name} />
        ))}
      </ul>
      <p class="aside">Filed on the left, printed on the right. Escape puts the light out.</p>
    </>
  );
}

function OneGroup({ group, pressed }: { readonly group: ClipGroup; readonly pressed: boolean }) {
  return (
    <li class="group">
      <span class="group-pair" role="img" aria-label={`filed ${group.filed}, prints as ${group.printed}`}>
        <i style={{ background: group.filed }} />
        <i style={{ background: group.printed }} />
      </span>
      <span class="group-says">
        <strong>{upper(group.name)}</strong>, {shareShown(group.share)} of the canvas
        <br />
        mean {deShown(group.mean_de)}, worst {deShown(group.worst_de)}
      </span>
      <button
        type="button"
        class="button"
        aria-pressed={pressed}
        aria-label={`Light up ${group.name}`}
        onClick={() => lightUp(group.name)}
      >
        Light up
      </button>
    </li>
  );
}
