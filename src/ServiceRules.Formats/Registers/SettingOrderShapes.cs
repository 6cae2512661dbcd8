using ServiceRules.Domain.Site;
using ServiceRules.Formats.Json.Shapes;
using ServiceRules.Formats.Vocabulary;

namespace ServiceRules.Formats.Registers;

/// <summary>Targets by area and the contact school by kind of unit, in force over a period.</summary>
internal static class SettingOrderShapes
{
    private static readonly ObjectShape<AreaTarget> TargetObject = Shape.Object<AreaTarget>(
        "area-target",
        "A target for one quantity on one area.",
        o =>
        {
            var area = o.Required("area", Terms.Identity, "the area as records name it", t => t.Area);
            var sheet = o.Optional(
                "sheet",
                Terms.Identity,
                "the limit sheet it is for; left out: every unit on the area",
                t => t.Sheet
            );
            var quantity = o.Required(
                "quantity",
                Choices.Quantity,
                "usually the height of cut",
                t => t.Quantity
            );
            var target = o.Required("target", Terms.Size, "the target", t => t.Target);
            var tolerance = o.Optional(
                "tolerance",
                Terms.Size,
                "allowed either way; left out: the limit sheet's own",
                t => t.Tolerance
            );
            return v => new AreaTarget(
                v.Get(area),
                v.Get(sheet),
                v.Get(quantity),
                v.Get(target),
                v.Get(tolerance)
            );
        }
    );

    private static readonly ObjectShape<SchoolChoice> SchoolObject = Shape.Object<SchoolChoice>(
        "school-choice",
        "Which school a kind of unit is set to.",
        o =>
        {
            var sheet = o.Required(
                "sheet",
                Terms.Identity,
                "the limit sheet of the kind of unit",
                c => c.Sheet
            );
            var school = o.Required("school", Choices.School, "the school", c => c.School);
            return v => new SchoolChoice(v.Get(sheet), v.Get(school));
        }
    );

    private static readonly ObjectShape<AreaMowing> MowingObject = Shape.Object<AreaMowing>(
        "area-mowing",
        "The speeds that an area is mown at.",
        o =>
        {
            var area = o.Required("area", Terms.Identity, "the area as records name it", m => m.Area);
            var sheet = o.Optional(
                "sheet",
                Terms.Identity,
                "the limit sheet it is for; left out: every unit on the area",
                m => m.Sheet
            );
            var ground = o.Required("groundSpeed", Terms.Speed, "ground speed", m => m.GroundSpeed);
            var reel = o.Required("reelSpeed", Terms.RotationRate, "turns of the reel", m => m.ReelSpeed);
            return v => new AreaMowing(v.Get(area), v.Get(sheet), v.Get(ground), v.Get(reel));
        }
    );

    public static ObjectShape<SettingOrder> Order { get; } =
        Shape.Object<SettingOrder>(
            "setting-order",
            "Dated targets by area, and the contact school by kind of unit.",
            o =>
            {
                var id = o.Required(
                    "id",
                    Terms.NewId<SettingOrder>("setting order"),
                    "its identity",
                    s => s.Id
                );
                var by = o.Required("by", Terms.Id<Domain.Records.Participant>(), "who set it", s => s.By);
                var from = o.Required("from", Terms.Day, "first day in force", s => s.From);
                var until = o.Optional(
                    "until",
                    Terms.Day,
                    "last day in force; left out: until replaced",
                    s => s.Until
                );
                var targets = o.Required(
                    "targets",
                    Shape.List(TargetObject, 0, FormatLimits.Register),
                    "targets by turf area",
                    s => s.Targets
                );
                var schools = o.Required(
                    "schools",
                    Shape.List(SchoolObject, 0, FormatLimits.Register),
                    "contact school by limit sheet",
                    s => s.Schools
                );
                var mowing = o.Items(
                    "mowing",
                    MowingObject,
                    FormatLimits.Register,
                    "speeds to mow at, by turf area",
                    s => s.Mowing
                );
                o.Check(
                    v => v.Get(until) is not { } last || v.Get(from) <= last,
                    until,
                    "the last day is before the first",
                    "`from` or later"
                );
                o.Check(
                    v =>
                        v.Get(targets).DistinctBy(t => (t.Area, t.Sheet, t.Quantity)).Count()
                        == v.Get(targets).Length,
                    targets,
                    "an area has two targets for one quantity",
                    "one target for each area, limit sheet and quantity"
                );
                o.Check(
                    v => v.Get(schools).DistinctBy(c => c.Sheet).Count() == v.Get(schools).Length,
                    schools,
                    "a limit sheet has two schools",
                    "one school for each limit sheet"
                );
                o.Check(
                    v => v.Get(mowing).DistinctBy(m => (m.Area, m.Sheet)).Count() == v.Get(mowing).Length,
                    mowing,
                    "an area has two speeds",
                    "one pair of speeds for each area and limit sheet"
                );
                return v => new SettingOrder
                {
                    Id = v.Get(id),
                    By = v.Get(by),
                    From = v.Get(from),
                    Until = v.Get(until),
                    Targets = v.Get(targets),
                    Schools = v.Get(schools),
                    Mowing = v.Get(mowing),
                };
            }
        );
}
