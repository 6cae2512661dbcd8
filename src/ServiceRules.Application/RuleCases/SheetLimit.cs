using System.Globalization;
using ServiceRules.Domain.Quantities;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.RuleCases;

/// <summary>One limit of a sheet. A value aimed at is none: no verdict hangs on it.</summary>
/// <param name="Limit">What the sheet asks of the quantity.</param>
/// <param name="Member">Which of its members.</param>
/// <param name="Pointer">Where it stands in the sheet.</param>
/// <param name="Print">What it is.</param>
/// <param name="With">The sheet with another print in its place.</param>
internal sealed record SheetLimit(
    QuantityLimit Limit,
    LimitMember Member,
    string Pointer,
    DualPrint Print,
    Func<DualPrint, LimitSheet> With
)
{
    public static IEnumerable<SheetLimit> Of(LimitSheet sheet) =>
        sheet.Quantities.SelectMany((limit, index) => Of(sheet, limit, index));

    /// <summary>Whether a check holds something against it.</summary>
    public bool IsAskedBy(Check check) =>
        check switch
        {
            Check.LimitOnQuantity { Against: LimitSource.Sheet } of => Member
                is LimitMember.Lower
                    or LimitMember.Upper
                && of.Quantity == Limit.Quantity,
            Check.LimitOnQuantity { Against: LimitSource.SettingOrder } of => Member
                is LimitMember.ToleranceAboutTarget
                && of.Quantity == Limit.Quantity,
            Check.LimitOnQuantity of => Member is LimitMember.WornBelow && of.Quantity == Limit.Quantity,
            Check.Spread of => Member == MemberOf(of.Across) && of.Quantity == Limit.Quantity,
            Check.Parallelism of => Member is LimitMember.Parallelism && of.Quantity == Limit.Quantity,
            Check.ReelForm { Of: ReelFormOf.Taper } => Member is LimitMember.Taper,
            Check.ReelForm => Member is LimitMember.Barrel,
            Check.Twist => Member is LimitMember.Twist,
            Check.ProceduralLimit of => Member is LimitMember.Passes or LimitMember.Stops
                && of.Quantity == Limit.Quantity,
            _ => false,
        };

    private static LimitMember MemberOf(SpreadAcross across) =>
        across switch
        {
            SpreadAcross.Sides => LimitMember.SideToSide,
            SpreadAcross.Units => LimitMember.AcrossUnits,
            _ => LimitMember.AdjacentEnds,
        };

    private static IEnumerable<SheetLimit> Of(LimitSheet sheet, QuantityLimit limit, int index)
    {
        (LimitMember Member, DualPrint? Print, Func<DualPrint, QuantityLimit> With)[] members =
        [
            (LimitMember.Lower, limit.Lower, print => limit with { Lower = print }),
            (LimitMember.Upper, limit.Upper, print => limit with { Upper = print }),
            (
                LimitMember.ToleranceAboutTarget,
                limit.ToleranceAboutTarget,
                print => limit with { ToleranceAboutTarget = print }
            ),
            (LimitMember.SideToSide, limit.SideToSide, print => limit with { SideToSide = print }),
            (LimitMember.AcrossUnits, limit.AcrossUnits, print => limit with { AcrossUnits = print }),
            (LimitMember.AdjacentEnds, limit.AdjacentEnds, print => limit with { AdjacentEnds = print }),
            (LimitMember.Parallelism, limit.Parallelism, print => limit with { Parallelism = print }),
            (LimitMember.Taper, limit.Taper, print => limit with { Taper = print }),
            (LimitMember.Barrel, limit.Barrel, print => limit with { Barrel = print }),
            (LimitMember.Twist, limit.Twist, print => limit with { Twist = print }),
            (LimitMember.WornBelow, limit.WornBelow, print => limit with { WornBelow = print }),
        ];
        var at = string.Create(CultureInfo.InvariantCulture, $"/quantities/{index}");
        foreach (var (member, print, with) in members)
        {
            if (print is not null)
            {
                yield return new(
                    limit,
                    member,
                    $"{at}/{FileWords.MemberOf(member)}",
                    print,
                    by => Replaced(sheet, index, with(by))
                );
            }
        }

        for (var school = 0; school < limit.Schools.Length; school++)
        {
            var (number, procedure) = (school, limit.Schools[school]);
            var taught = string.Create(CultureInfo.InvariantCulture, $"{at}/schools/{number}");
            if (procedure.Passes is { } passes)
            {
                yield return new(
                    limit,
                    LimitMember.Passes,
                    $"{taught}/passes",
                    passes,
                    by => Replaced(sheet, index, Taught(limit, number, procedure with { Passes = by }))
                );
            }

            if (procedure.Stops is { } stops)
            {
                yield return new(
                    limit,
                    LimitMember.Stops,
                    $"{taught}/stops",
                    stops,
                    by => Replaced(sheet, index, Taught(limit, number, procedure with { Stops = by }))
                );
            }
        }
    }

    private static QuantityLimit Taught(QuantityLimit limit, int school, SchoolProcedure procedure) =>
        limit with
        {
            Schools = limit.Schools.SetItem(school, procedure),
        };

    private static LimitSheet Replaced(LimitSheet sheet, int index, QuantityLimit by) =>
        sheet with
        {
            Quantities = sheet.Quantities.SetItem(index, by),
        };
}
