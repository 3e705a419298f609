// The share section: pictures of the piece, its model, and the page for the client.
import { shown } from "../../state/work/work";
import { ClientAnswer } from "./client_answer";
import { ClientPage } from "./client_page";
import { Model } from "./model";
import { Stills } from "./stills";
import { Turntable } from "./turntable";

export function ShareSection() {
  if (shown.value === undefined) return null;
  return (
    <>
      <Stills />
      <Turntable />
      <Model />
      <ClientPage />
      <ClientAnswer />
    </>
  );
}
