// The sections of the page. This table alone decides their order, numbers, titles and labels.
import type { FunctionComponent } from "preact";
import { BarsSection } from "./sections/bars/bars";
import { ColourSection } from "./sections/colour/colour";
import { CompareSection } from "./sections/compare/compare";
import { CuttingSection } from "./sections/plan/cutting";
import { OnTheWallSection } from "./sections/photo/on_the_wall";
import { PictureSection } from "./sections/picture/picture";
import { PrintSection } from "./sections/print/print";
import { SheetSection } from "./sections/sheet";
import { RoomSection } from "./sections/room";
import { ShareSection } from "./sections/share/share";
import { SidesSection } from "./sections/sides/sides";
import { StretchingSection } from "./sections/stretching";
import { say } from "../speech/on_page";

export interface PageSection {
  /** The element's id, which links and tests use. */
  readonly id: string;
  /** Its heading. */
  readonly title: string;
  /** Its name in the list of sections, where that is shorter than the heading. */
  readonly label?: string;
  /** What stands below the heading. */
  readonly Content: FunctionComponent;
}

/** In the order of the page; a section's number is its place here, counted from 1. */
export const SECTIONS: readonly PageSection[] = [
  { id: "picture", title: say("Picture"), Content: PictureSection },
  { id: "sheet", title: say("Sheet or roll"), label: say("Sheet"), Content: SheetSection },
  { id: "bars", title: say("Size and bars"), label: say("Size"), Content: BarsSection },
  { id: "sides", title: say("Sides"), Content: SidesSection },
  { id: "colour", title: say("Colour"), Content: ColourSection },
  { id: "compare", title: say("Compare"), Content: CompareSection },
  { id: "print", title: say("Print"), Content: PrintSection },
  { id: "cutting", title: say("Cutting plan"), label: say("Cutting"), Content: CuttingSection },
  { id: "room", title: say("Room"), Content: RoomSection },
  { id: "on-the-wall", title: say("On the wall"), Content: OnTheWallSection },
  { id: "share", title: say("Share"), Content: ShareSection },
  { id: "stretching", title: say("Stretching"), Content: StretchingSection },
];
