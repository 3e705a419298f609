// Showing the piece to others: the room it is seen in, pictures of it, and the page for the client.
import { Section } from "../../controls/section";
import { shown } from "../../state/work/work";
import { ClientPage } from "./client_page";
import { Model } from "./model";
import { Stills } from "./stills";
import { SurroundingsControls } from "./surroundings";
import { Turntable } from "./turntable";

export function ShowingSection() {
  if (shown.value === undefined) return null;
  return (
    <Section id="showing" number={9} title="Showing">
      <SurroundingsControls />
      <Stills />
      <Turntable />
      <Model />
      <ClientPage />
    </Section>
  );
}
