using ServiceRules.Domain.Quantities;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Checking;

/// <summary>Every printed length of a sheet, with where it stands.</summary>
internal static class SheetPrints
{
    public static IEnumerable<(string Pointer, DualPrint Print)> Of(LimitSheet sheet) =>
        Own(sheet)
            .Concat(sheet.Adjusters.SelectMany(Adjuster))
            .Concat(sheet.Quantities.SelectMany(Quantity))
            .Where(item => item.Print is not null)
            .Select(item => (item.Pointer, item.Print!));

    private static IEnumerable<(string Pointer, DualPrint? Print)> Own(LimitSheet sheet) =>
        [
            ("/reelDiameter", sheet.ReelDiameter),
            ("/width", sheet.Width),
            ("/frontRollerDiameter", sheet.FrontRollerDiameter),
            ("/rearRollerDiameter", sheet.RearRollerDiameter),
            ("/wear/reelPerGrind", sheet.Wear?.ReelPerGrind),
            ("/wear/lipPerFacing", sheet.Wear?.LipPerFacing),
        ];

    private static IEnumerable<(string Pointer, DualPrint? Print)> Adjuster(Adjuster adjuster, int index)
    {
        var at = FormattableString.Invariant($"/adjusters/{index}");
        return adjuster
            .Disturbs.Select(
                (disturbance, below) =>
                    (
                        FormattableString.Invariant($"{at}/disturbs/{below}/shiftPerStep"),
                        disturbance.ShiftPerStep
                    )
            )
            .Prepend((at + "/step", adjuster.Step));
    }

    private static IEnumerable<(string Pointer, DualPrint? Print)> Quantity(QuantityLimit limit, int index)
    {
        var at = FormattableString.Invariant($"/quantities/{index}");
        IEnumerable<(string, DualPrint?)> own =
        [
            (at + "/lower", limit.Lower),
            (at + "/upper", limit.Upper),
            (at + "/target", limit.Target),
            (at + "/toleranceAboutTarget", limit.ToleranceAboutTarget),
            (at + "/sideToSide", limit.SideToSide),
            (at + "/acrossUnits", limit.AcrossUnits),
            (at + "/adjacentEnds", limit.AdjacentEnds),
            (at + "/parallelism", limit.Parallelism),
            (at + "/taper", limit.Taper),
            (at + "/barrel", limit.Barrel),
            (at + "/twist", limit.Twist),
            (at + "/wornBelow", limit.WornBelow),
        ];
        return own.Concat(
            limit.Schools.SelectMany(
                (school, below) =>
                    new (string, DualPrint?)[]
                    {
                        (FormattableString.Invariant($"{at}/schools/{below}/passes"), school.Passes),
                        (FormattableString.Invariant($"{at}/schools/{below}/stops"), school.Stops),
                    }
            )
        );
    }
}
