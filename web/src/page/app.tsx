// The page: header, stage with its controls, notes, and the sections.
import { MarginNotes } from "./margin_notes";
import { PageHeader } from "./header";
import { Loading, Preview } from "./preview";
import { NewVersion } from "./new_version";
import { Section } from "./controls/section";
import { SectionList } from "./section_list";
import { SECTIONS } from "./section_table";
import { SettingsLine } from "./settings_line";
import { Status } from "./status";
import { compared } from "./state/compare/comparison";
import { shown } from "./state/work/work";
import { loading, painted } from "./state/page/status";
import { scene } from "./state/page/view";
import { ColourCaption, HighlightCaption } from "./wall/colour_caption";
import { FoldSlider, StageSwitches } from "./wall/stage_controls";
import { PhotoControls } from "./wall/photo_controls";
import { PhotoWall } from "./wall/photo_wall";
import { PaneCaptions } from "./wall/pane_captions";
import { SheetView } from "./wall/sheet_view";
import { SheetWords } from "./wall/sheet_words";
import { StageText } from "./wall/stage_text";
import { Wall } from "./wall/wall";
import { dropping } from "./page_events";
import { say } from "../speech/on_page";

export function App() {
  return (
    <div class="page">
      <a class="skip" href="#work">
        {say("Go to the settings")}
      </a>
      {shown.value !== undefined && (
        <>
          <a class="skip" href="#compare">
            {say("Go to comparing and printing")}
          </a>
          <a class="skip" href="#sides">
            {say("Go to sides and colours")}
          </a>
          <a class="skip" href="#canvas">
            {say("Go to the canvas")}
          </a>
        </>
      )}
      <PageHeader />
      <NewVersion />
      <main class="main">
        <div class="stage" id="canvas" tabIndex={-1}>
          <div class="stage-picture">
            {painted.value && <Wall />}
            {scene.value === "sheet" && <SheetView />}
            {scene.value === "photo" && <PhotoWall />}
            <Preview />
            {shown.value !== undefined && loading.value.state !== "ready" && (
              <div class="restart-loading">
                <Loading />
              </div>
            )}
            <HighlightCaption />
            <PaneCaptions />
          </div>
          <div class="stage-controls">
            {shown.value === undefined ? (
              <Loading />
            ) : (
              <>
                <StageSwitches />
                {scene.value === "wall" && <FoldSlider />}
                {scene.value === "sheet" && <SheetWords />}
                {scene.value === "photo" && <PhotoControls />}
                {scene.value === "wall" && <ColourCaption place={compared.value === undefined ? "wall" : "controls"} />}
              </>
            )}
          </div>
          <StageText />
          <Status />
        </div>
        <MarginNotes />
        <div class="work" id="work" tabIndex={-1}>
          {shown.value === undefined ? (
            <p class="work-loading">
              {loading.value.state === "failed"
                ? say("The page cannot start.")
                : say("Getting ready. Everything runs in this page; nothing is sent anywhere.")}
            </p>
          ) : (
            <>
              <SectionList />
              {SECTIONS.map(({ id, title, Content }, place) => (
                <Section key={id} id={id} number={place + 1} title={title} next={SECTIONS[place + 1]}>
                  <Content />
                </Section>
              ))}
              <SettingsLine />
            </>
          )}
        </div>
      </main>
      {dropping.value && <div class="dropping">{say("Drop the file to open it")}</div>}
    </div>
  );
}
