// The output of the ticket: its paper, and the file.
import { signal } from "@preact/signals";
import type { Paper, TicketReport } from "../../../contract/types";
import { dayOf } from "../../../day";
import { openProfileInCore } from "../colour/profiles";
import { Maker } from "./making";

export const ticket = new Maker<TicketReport>();
export const ticketPaper = signal<Paper>("a4");

/** Make the ticket of the current job and hand it to the downloads. */
export function makeTicket(): Promise<void> {
  return ticket.run(async ({ now, ask, deliver }) => {
    await openProfileInCore(now.job.colour.profile);
    const params = { job: now.job, paper: ticketPaper.value, date: dayOf(new Date()) };
    deliver(await ask("ticket", params), "application/pdf");
  });
}
