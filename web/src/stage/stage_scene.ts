/** All that is drawn: the room and the panes in it, and what the panes share. Knows nothing of the page. */

import { Scene } from "three";
import type { Surroundings } from "../contract/types";
import { FoldStore } from "./piece/fold_on_gpu";
import { hangingOf } from "./panes/hanging";
import { type Ray, roomLight, shadowRays } from "./room/light";
import { checkLabels, checkLook } from "./look/table";
import { LookTables } from "./look/tables_on_gpu";
import { PaneScene } from "./panes/pane_scene";
import { MOST_PANES, type PaneBox } from "./panes/panes";
import type { StageRenderer } from "./drawing/renderer";
import { roomScene } from "./room/room_scene";
import type { FacePlane } from "./still/still_scale";
import { checkTexture, TextureStore } from "./drawing/textures";
import { DEFAULT_SURROUNDINGS } from "./room/theme";
import type { ColourView, Look, StageLabels, StagePane, StageTexture, Theme } from "./types";
import { lightRoom, paintRoom, placeShadow, sharedUniforms } from "./drawing/uniforms";
import type { Hanging } from "./camera/views";

const KEY_RAYS = 85;
const SKY_RAYS = 51;
/** The wall is let out while the camera passes through its plane. */
const WALL_FADE_M = 0.16;
/** Before the first piece arrives nothing hangs on the wall; the camera waits for a piece of about this size. */
export const EMPTY: Hanging = { centre: [0, 1.5, 0.038], widthM: 0.4, heightM: 0.3, depthM: 0.038, spreadM: 0.063 };

export class StageScene {
  readonly scene = new Scene();
  readonly shared = sharedUniforms();
  readonly textures: TextureStore;
  private readonly room = roomScene(this.shared);
  private readonly folds = new FoldStore(this.shared);
  private readonly tables = new LookTables();
  private panes: readonly PaneScene[];
  private given: readonly StagePane[] = [];
  private rays: readonly Ray[] = shadowRays(roomLight(), KEY_RAYS, SKY_RAYS);
  private look: Look | undefined;
  private theme: Theme = "light";
  private surroundings = DEFAULT_SURROUNDINGS;
  private beside: Hanging["beside"];
  private view: ColourView = "filed";
  private thresholdDe = 0;
  private at = 1;
  private stale = { shape: true, shadow: true };

  constructor(anisotropy: number) {
    this.textures = new TextureStore(anisotropy);
    this.scene.matrixWorldAutoUpdate = false;
    this.scene.add(this.room.group);
    this.room.group.updateMatrixWorld(true);
    this.panes = [this.newPane()];
    paintRoom(this.shared, this.theme);
    this.placeShadows();
  }

  /** At least one, if only of bare wall. */
  get count(): number {
    return this.panes.length;
  }

  /** Whether anything hangs on the wall. */
  get hangs(): boolean {
    return this.given.length > 0;
  }

  /** The room that the panes' pieces take as they now are. */
  get hanging(): Hanging {
    const { beside } = this;
    const alone = this.hangs
      ? hangingOf(
          this.panes.map(({ hung }) => hung),
          this.at < 1,
        )
      : EMPTY;
    return beside === undefined ? alone : { ...alone, beside };
  }

  setPanes(given: readonly StagePane[]): void {
    if (given.length === 0 || given.length > MOST_PANES) {
      throw new RangeError(`panes: expected 1 to ${MOST_PANES}, got ${given.length}`);
    }
    const pieces = given.flatMap((pane) => pane.pieces);
    const pictures = new Set<StageTexture>();
    for (const { texture } of pieces) if (texture !== undefined) pictures.add(texture);
    for (const picture of pictures) checkTexture(picture);
    for (const { look } of given) if (look !== undefined) checkLook(look);
    const folds = this.folds.keep(pieces);
    this.textures.keep(pictures);
    this.given = given;
    this.fitCount(given.length);
    let place = 0;
    const moved = this.panes.map((pane, i) => {
      const own = given[i]?.pieces ?? [];
      const first = place;
      place += own.length;
      const sharing = own.flatMap((piece, k) => {
        const fold = folds[first + k];
        return fold === undefined ? [] : [{ piece, fold, texture: this.textures.of(piece.texture) }];
      });
      return pane.setPieces(sharing);
    });
    this.giveLooks();
    if (!moved.includes(true)) return;
    this.placeShadows();
    this.stale.shape = true;
  }

  setLook(look: Look): void {
    checkLook(look);
    this.look = look;
    this.giveLooks();
  }

  setColourView(view: ColourView): void {
    this.view = view;
    for (const pane of this.panes) pane.look.setView(view);
  }

  setThreshold(de: number): void {
    this.thresholdDe = de;
    for (const pane of this.panes) pane.look.setThreshold(de);
  }

  /** Of the first pane. */
  setLabels(labels: StageLabels): void {
    checkLabels(labels);
    this.panes[0]?.look.setLabels(labels);
  }

  highlight(group: number): void {
    this.panes[0]?.look.highlight(group);
  }

  /** Whether that is another position than before. */
  setAt(at: number): boolean {
    if (at === this.at) return false;
    this.at = at;
    this.stale.shape = true;
    return true;
  }

  setTheme(theme: Theme): void {
    this.theme = theme;
    paintRoom(this.shared, theme, this.surroundings.wall);
  }

  setSurroundings(surroundings: Surroundings): void {
    const before = this.surroundings;
    this.surroundings = surroundings;
    paintRoom(this.shared, this.theme, surroundings.wall);
    const light = lightRoom(this.shared, surroundings);
    const turned = before.light_from !== surroundings.light_from;
    if (turned || before.beside !== surroundings.beside) this.standBeside();
    if (!turned) return;
    this.rays = shadowRays(light, KEY_RAYS, SKY_RAYS);
    for (const { shadow } of this.panes) shadow.setRays(this.rays);
    this.stale.shadow = true;
  }

  /** Everything that depends on the folds, when they have changed. */
  refresh(renderer: StageRenderer): void {
    if (this.stale.shape) {
      for (const fold of this.folds.all) fold.moveTo(this.at);
      const { hanging } = this;
      for (const pane of this.panes) pane.hang(hanging);
      this.stale = { shape: false, shadow: true };
    }
    if (this.stale.shadow) {
      for (const { shadow } of this.panes) renderer.drawShadow(shadow);
      this.stale.shadow = false;
    }
  }

  /** Make ready to draw one pane, of which `box` is the whole, into a picture of so many pixels. */
  ready(index: number, box: PaneBox, viewport: { readonly width: number; readonly height: number }): void {
    this.panes.forEach((pane, i) => (pane.group.visible = i === index));
    const shadow = this.panes[index]?.shadow;
    if (shadow !== undefined) this.shared.shadow.value = shadow.target.texture;
    this.shared.paneBox.value.set(box.left, box.bottom, box.width, box.height);
    this.shared.viewport.value.set(viewport.width, viewport.height);
  }

  /** The face of what hangs in a pane, of a group from its first to its last, as it now is. */
  facePlane(index: number): FacePlane | undefined {
    const hung = this.panes[index]?.hung ?? [];
    const [first] = hung;
    if (first === undefined) return undefined;
    const { widthM, heightM } = hangingOf([hung], false);
    return {
      centreM: [this.hanging.centre[0], this.hanging.centre[1], first.shape.offMm / 1000],
      widthMm: widthM * 1000,
      heightMm: heightM * 1000,
    };
  }

  /** Show wall and floor to an eye so many metres in front of the wall. */
  showRoom(eyeM: number): void {
    const shown = Math.min(1, Math.max(0, eyeM / WALL_FADE_M));
    this.shared.wallShown.value = shown;
    this.room.setShown(shown > 0);
  }

  /** Free everything on the graphics processor; the next drawing uploads what it needs. */
  release(): void {
    this.room.dispose();
    for (const pane of this.panes) pane.dispose();
    this.folds.dispose();
    this.textures.dispose();
    this.tables.dispose();
    this.stale = { shape: true, shadow: true };
  }

  private newPane(): PaneScene {
    const pane = new PaneScene(this.shared, this.tables, this.rays);
    this.scene.add(pane.group);
    return pane;
  }

  private fitCount(count: number): void {
    for (const pane of this.panes.slice(count)) {
      this.scene.remove(pane.group);
      pane.dispose();
    }
    const kept = this.panes.slice(0, count);
    const more = Array.from({ length: count - kept.length }, () => this.newPane());
    this.panes = [...kept, ...more];
    for (const { look } of more) {
      look.setView(this.view);
      look.setThreshold(this.thresholdDe);
    }
  }

  /** Every pane is seen with its own look, or else with the stage's. */
  private giveLooks(): void {
    const used = new Set<Look>();
    this.panes.forEach((pane, i) => {
      const look = this.given[i]?.look ?? this.look;
      pane.look.setLook(look);
      if (look !== undefined) used.add(look);
    });
    if (this.look !== undefined) used.add(this.look);
    this.tables.keep(used);
  }

  /** The room that the panes' pieces take with their sheets lying open. */
  private get spread(): Hanging {
    return this.hangs
      ? hangingOf(
          this.panes.map(({ hung }) => hung),
          true,
        )
      : EMPTY;
  }

  /** All panes' shadows cover an equally large part of the wall, so that the light is the same on each. */
  private placeShadows(): void {
    const { spread } = this;
    for (const { shadow } of this.panes) placeShadow(this.shared, shadow, spread);
    this.standBeside();
  }

  /** Clear of the widest pane's sheets, also when they lie open; its shadow follows the light. */
  private standBeside(): void {
    this.beside = this.room.setBeside(this.surroundings.beside, this.spread);
  }
}
