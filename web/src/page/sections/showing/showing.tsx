// The showing section: the room around the piece, pictures of it, and the page for the client.
import { shown } from "../../state/work/work";
import { ClientPage } from "./client_page";
import { Model } from "./model";
import { Stills } from "./stills";
import { SurroundingsControls } from "./surroundings";
import { Turntable } from "./turntable";

export function ShowingSection() {
  if (shown.value === undefined) return null;
  return (
    <>
      <SurroundingsControls />
      <Stills />
      <Turntable />
      <Model />
      <ClientPage />
    </>
  );
}
