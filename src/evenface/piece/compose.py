"""From validated forms to records: names looked up, defaults taken over, key paths kept."""

from collections import Counter
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final, Protocol

from evenface.errors import Complaint, Sentence, nearest_words
from evenface.piece import records as r
from evenface.piece.calendar_records import USUAL_CALENDAR
from evenface.piece.compose_edges import corners_of, edges_of
from evenface.piece.compose_notches import hold_of, notches_of
from evenface.piece.compose_shapes import Shaper
from evenface.piece.cutting_records import USUAL_CUTTING
from evenface.piece.kind import Kind
from evenface.piece.price_records import NO_PRICES, PriceTable
from evenface.piece.source_text import Source
from evenface.piece.tables import Tables
from evenface.toml_places import key_path
from evenface.words import Said, said

if TYPE_CHECKING:
    from evenface.piece import forms as f
    from evenface.piece import shape_forms as sf


_PROFILE_NEEDS: Final[Mapping[str, tuple[str, ...]]] = {
    "round-over": ("radius",),
    "cove": ("radius",),
    "chamfer": (),
    "bevel under": ("height", "depth"),
    "thumbnail": ("radius", "depth"),
    "stepped": ("height", "depth"),
    "free": ("curve",),
}


class _Names(Protocol):
    def names(self, kind: str) -> tuple[str, ...]: ...


class Composer:
    """Composes the records of one file; what does not fit is added to `complaints`, never raised."""

    def __init__(
        self,
        source: Source,
        known: _Names,
        tables: Tables,
        complaints: list[Complaint],
        folder: Path | None,
    ) -> None:
        self.source = source
        self.known = known
        self.tables = tables
        self.complaints = complaints
        self.shaper = Shaper(source, complaints, folder)
        self.words = {
            kind: tuple(known.names(kind)) for kind in ("carrier", "facing", "wood", "glue", "finish")
        }

    # --- the job ------------------------------------------------------------------------------------

    def job(self, pieces: Sequence[tuple[Kind, Any, str]]) -> r.Job | None:
        """The whole job; None when a table of it could not be read.

        pieces : the validated tables of the pieces, each with its kind and key path. Everything that can be
        composed is composed, so that its complaints are heard.
        """
        self._no_doubles(
            [piece.name for _, piece, _ in pieces], [f"{origin}.name" for _, _, origin in pieces]
        )
        tables = self.tables
        buildups = {name: self.buildup(name, entry) for name, entry in tables.buildup.items()}
        from evenface.piece.calendar_forms import calendar_of
        from evenface.piece.cutting_forms import cutting_of
        from evenface.piece.order_moves import corners_in, moves_in
        from evenface.piece.wanted import brief_in, variants_in

        made = tuple(self._piece(kind, piece, origin) for kind, piece, origin in pieces)
        stock = tuple(self._stock(entry, f"stock[{number}]") for number, entry in tables.stock)
        table = tables.job
        if table is None or tables.allowances is None or tables.saw is None or tables.shop is None:
            return None
        return r.Job(
            format=1,
            name=table.name,
            buildups=buildups,
            pieces=made,
            client=table.client,
            due=table.due,
            place=self._climate_word("place", table.place, "job.place"),
            room=self._climate_word("room", table.room, "job.room"),
            humidity=table.humidity,
            temperature_c=table.temperature,
            logger=table.logger or "",
            shop_humidity=table.shop_humidity,
            bonding_month=table.bonding_month,
            currency=table.currency,
            allowances=allowances_of(tables.allowances, "allowances"),
            saw=r.Saw(tables.saw.kerf, tables.saw.trim, tables.saw.stages, tables.saw.first_cut, "saw"),
            shop=shop_of(tables.shop),
            stock=stock,
            cutting=cutting_of(tables.cutting) if tables.cutting is not None else USUAL_CUTTING,
            calendar=calendar_of(tables.calendar) if tables.calendar is not None else USUAL_CALENDAR,
            price=self._price(tables),
            moves=moves_in(self.source, self.complaints),
            corners=corners_in(self.source, self.complaints),
            brief=brief_in(self.source, self.complaints),
            variants=variants_in(self.source, self.complaints),
            texts=self.source.found,
            file=self.source.file,
        )

    def _piece(self, kind: Kind, form: Any, origin: str) -> r.Piece:
        from evenface.piece.wanted import brief_at

        brief = brief_at(self.source, form.brief, f"{origin}.brief", self.complaints)
        return r.Piece(form.name, kind.name, form.count, kind.compose(form, self, origin), origin, brief)

    def _price(self, tables: Tables) -> PriceTable:
        if tables.price is None:
            return NO_PRICES
        from evenface.piece.prices import table_of

        return table_of(tables.price, self.source, "price", self.complaints, self.known)

    def _climate_word(self, what: str, given: str, path: str) -> str:
        """A place or kind of room, with spaces as hyphens; a complaint when nobody knows it."""
        from evenface.climate import place_names, room_kind_names

        word = given.strip().lower().replace(" ", "-")
        known = place_names() if what == "place" else room_kind_names()
        if word and word not in known:
            self.complain(
                path, said("a {what:word} that is known", what=what), repr(given), nearest_words(word, known)
            )
        return word

    def _stock(self, form: "f.StockForm", origin: str) -> r.StockItem:
        self.material(("carrier", "facing", "wood"), form.material, f"{origin}.material")
        if (form.size is None) == (form.width is None):
            self.complain(
                origin, "size = [length, width], or width alone for a roll by the metre", "both or neither"
            )
        length, width = form.size if form.size else (None, form.width or 1.0)
        usual = "roll" if form.size is None else "sheet"
        from evenface.piece.cutting_forms import board_of

        return r.StockItem(
            form.material,
            length,
            width,
            form.copies,
            form.price,
            form.form or usual,
            form.batch,
            origin,
            board_of(form),
        )

    # --- build-ups ----------------------------------------------------------------------------------

    def buildup(self, name: str, form: "f.BuildUpForm") -> r.BuildUp:
        """Layers bottom to top: back, carrier, face."""
        origin = key_path(("buildup", name))
        layers = [
            self._layer(role, entry, f"{origin}.{key}", kind)
            for role, key, entry, kind in (
                (r.Role.BACK, "back", form.back, "facing"),
                (r.Role.CARRIER, "carrier", form.carrier, "carrier"),
                (r.Role.FACE, "face", form.face, "facing"),
            )
            if entry is not None
        ]
        self.material(("glue",), form.glue, f"{origin}.glue")
        for key, word, kind in (("edging_glue", form.edging_glue, "glue"), ("finish", form.finish, "finish")):
            if word:
                self.material((kind,), word, f"{origin}.{key}")
        if form.edging is not None and form.edging.wood is not None:
            self.material(("wood",), form.edging.wood, f"{origin}.edging.wood")
        return r.BuildUp(
            name,
            tuple(layers),
            form.glue,
            form.edging_glue,
            form.finish,
            form.bonding_humidity,
            origin,
            form.same_sheet,
            form.same_batch,
        )

    def _layer(self, role: r.Role, form: "f.LayerForm", origin: str, kind: str) -> r.Layer:
        self.material((kind,), form.material, origin)
        return r.Layer(
            role,
            form.material,
            form.thickness,
            90.0 if form.turned else 0.0,
            form.humidity,
            form.days_conditioned,
            form.batch,
            origin,
        )

    # --- panels -------------------------------------------------------------------------------------

    def panel(self, form: "f.PanelForm", origin: str) -> r.Panel:
        """One panel with everything done to it."""
        buildup = self.tables.buildup.get(form.buildup)
        known = self.tables.buildup_names
        if form.buildup not in known:
            self.complain(
                f"{origin}.buildup",
                "the name of a [buildup.…] table",
                repr(form.buildup),
                nearest_words(form.buildup, known),
            )
        edges = edges_of(self, form, buildup.edging if buildup else None, origin)
        self._names_within(form, origin)
        outline, drawn_holes = self.shaper.panel_outline(form.outline, f"{origin}.outline")
        return r.Panel(
            name=form.name,
            count=form.count,
            length_mm=form.size[0],
            width_mm=form.size[1],
            buildup=form.buildup,
            use=form.use,
            outline=outline,
            outline_sides=self.shaper.sides_of(form.outline, f"{origin}.outline"),
            edges=edges,
            corners=corners_of(self, form, origin),
            profiles=self._profiles(form, edges, origin),
            inserts=self.shaper.inserts(self, form.insert, f"{origin}.insert"),
            grips=tuple(
                self._grip(grip, form, self.source.entry(f"{origin}.grip", n))
                for n, grip in enumerate(form.grip)
            ),
            cutouts=(*self.shaper.cutouts(self, form.cutout, f"{origin}.cutout"), *drawn_holes),
            notches=notches_of(self, self.source, form, origin),
            allowances=allowances_of(form.allowances, f"{origin}.allowances"),
            run=form.run,
            hold=hold_of(form.hold, f"{origin}.hold"),
            limit=r.FlatnessLimit(form.limit.mm, form.limit.gauge, origin=f"{origin}.limit")
            if form.limit
            else None,
            climate_top=self._climate_word("room", form.climate.top, f"{origin}.climate.top"),
            climate_bottom=self._climate_word("room", form.climate.bottom, f"{origin}.climate.bottom"),
            span_mm=form.span,
            load_n_per_m=form.load,
            origin=origin,
            same_sheet=form.same_sheet or (buildup.same_sheet if buildup else ""),
            same_batch=form.same_batch or (buildup.same_batch if buildup else ""),
            seams_mm=None if form.seams == "none" else form.seams or (),
        )

    def _profiles(self, form: "f.PanelForm", edges: tuple[r.Edge, ...], origin: str) -> tuple[r.Profile, ...]:
        edged = tuple(edge.side for edge in edges) or tuple(r.Side)
        for number, profile in enumerate(form.profile):
            self._check_profile(profile, self.source.entry(f"{origin}.profile", number))
        return tuple(
            r.Profile(
                sides=tuple(r.Side(word) for word in profile.edges) if profile.edges is not None else edged,
                shape=profile.shape,
                face=profile.face,
                radius_mm=profile.radius,
                depth_mm=profile.depth,
                height_mm=profile.height,
                curve=tuple(_three(point) for point in profile.curve),
                stop_mm=profile.stop,
                reserve_mm=profile.reserve,
                origin=self.source.entry(f"{origin}.profile", number),
            )
            for number, profile in enumerate(form.profile)
        )

    def _check_profile(self, profile: "sf.ProfileForm", path: str) -> None:
        missing = [key for key in _PROFILE_NEEDS[profile.shape] if getattr(profile, key) in (None, ())]
        for key in missing:
            self.complain(
                f"{path}.{key}", said("{key} of the {shape}", key=key, shape=profile.shape), "nothing"
            )
        if any(len(point) not in (2, 3) for point in profile.curve):
            self.complain(f"{path}.curve", "points [z, depth] or [z, depth, bulge]", "others")
        if profile.edges == ():
            self.complain(
                f"{path}.edges", "at least one edge", "none", "Leave edges out for all that are edged."
            )

    def _grip(self, form: "sf.GripForm", panel: "f.PanelForm", origin: str) -> r.Grip:
        inserts = tuple(insert.name for insert in panel.insert)
        if form.insert and form.insert not in inserts:
            self.complain(
                f"{origin}.insert",
                "the name of an insert of this panel",
                repr(form.insert),
                nearest_words(form.insert, inserts),
            )
        if not form.path:
            self.complain(f"{origin}.path", "at least one point [x, y]", "none")
        return r.Grip(
            name=form.name,
            insert=form.insert,
            cutter=form.cutter,
            cutter_diameter_mm=form.diameter,
            depth_mm=form.depth,
            path=form.path,
            from_=form.from_,
            scooped=form.scooped,
            wall_mm=form.wall,
            floor_mm=form.floor,
            hand=form.hand,
            side=self._edge_of_grip(form, origin),
            origin=origin,
        )

    def _edge_of_grip(self, form: "sf.GripForm", origin: str) -> r.Side | None:
        if form.edge is not None and form.from_ != "edge":
            self.complain(
                f"{origin}.edge", 'from = "edge" beside it', said('from = "{word}"', word=form.from_)
            )
        return r.Side(form.edge) if form.edge else None

    def _names_within(self, form: "f.PanelForm", origin: str) -> None:
        for key, entries in (("insert", form.insert), ("grip", form.grip), ("cutout", form.cutout)):
            names = [entry.name for entry in entries]
            self._no_doubles(names, [f"{origin}.{key}[{number}].name" for number in range(len(names))])

    # --- words --------------------------------------------------------------------------------------

    def material(self, kinds: tuple[str, ...], given: str, path: str) -> None:
        """A complaint unless a material of one of the kinds is called so."""
        known = tuple(name for kind in kinds for name in self.words[kind])
        if given not in known:
            self.complain(
                path,
                of_the_catalogue(kinds),
                repr(given),
                nearest_words(given, known),
            )

    def panel_names(self, forms: Sequence["f.PanelForm"], origin: str) -> None:
        """A complaint for every panel name of a piece that stands twice, and for a piece without any."""
        names = [form.name for form in forms]
        if not names:
            self.complain(origin, "at least one [[piece.panel]]", "none")
        self._no_doubles(names, [f"{origin}.panel[{number}].name" for number in range(len(names))])

    def complain(self, path: str, expected: Sentence, given: Sentence, hint: Sentence = "") -> None:
        """Add a complaint about the entry at a key path."""
        self.complaints.append(Complaint(self.source.place(path), expected, given, hint))

    def _no_doubles(self, names: Sequence[str], paths: Sequence[str]) -> None:
        counts = Counter(names)
        seen: set[str] = set()
        for name, path in zip(names, paths, strict=True):
            if counts[name] > 1 and name in seen:
                self.complain(path, "a name used once", said("{name} a second time", name=repr(name)))
            seen.add(name)


def allowances_of(form: "f.AllowancesForm", origin: str) -> r.Allowances:
    """Allowances as far as they are written; what is not stays open."""
    over = form.overhang
    by_side = {
        side: given
        for side in r.Side
        if (given := getattr(over, side.value) if getattr(over, side.value) is not None else over.every)
        is not None
    }
    return r.Allowances(by_side, form.proud_under, form.proud_flush, form.end, form.carrier, origin)


def shop_of(form: "f.ShopForm") -> r.Shop:
    """Router, bushes and cutters."""
    return r.Shop(
        bush_mm=form.bush,
        cutter_mm=form.cutter,
        bearing_mm=form.bearing,
        small_bush_mm=form.small_bush,
        cutters_mm=form.cutters,
        reach_mm=form.reach,
        template_mm=form.template,
        base_mm=form.base,
    )


def _three(point: Sequence[float]) -> tuple[float, float, float]:
    values = (*point, 0.0, 0.0, 0.0)
    return values[0], values[1], values[2]


def of_the_catalogue(kinds: Sequence[str]) -> Said:
    """What is expected where a material of one of the kinds is named."""
    named = said("{kind:word}", kind=kinds[0])
    for other in kinds[1:]:
        named = said("{some} or {other:word}", some=named, other=other)
    return said("a {kinds} of the catalogue", kinds=named)
