using ServiceRules.Application.Explaining;
using ServiceRules.Domain.Quantities;
using ServiceRules.Reporting.Reports.Words;
using ServiceRules.Rules.Model;

namespace ServiceRules.Cli.Printing;

/// <summary>What readings are held against, with what that rests on and where it stands.</summary>
internal static class LimitWords
{
    public static IEnumerable<string> Of(Check check, LimitBehind behind)
    {
        var quantity = ReportWords.Of(behind.Quantity);
        if (check is Check.LimitOnQuantity { Against: LimitSource.SettingOrder })
        {
            yield return Target(behind, quantity);
        }

        if (check is Check.ProceduralLimit or Check.Contact)
        {
            yield return behind.Unit.School is { } school
                ? $"the setting order sets this kind of unit to {ConditionWords.Of(school)}"
                : "no setting order says how this kind of unit is set";
        }

        if (behind.Limit is not { } limit)
        {
            yield return $"limit sheet {behind.Unit.Sheet.Id} states no limit on {quantity} ({behind.File})";
            yield break;
        }

        var stated = string.Join(", ", Stated(check, limit));
        if (stated.Length == 0 && check is Check.Contact)
        {
            yield break;
        }

        yield return stated.Length == 0
            ? $"limit sheet {behind.Unit.Sheet.Id} states nothing of {quantity} that this check asks for ({behind.File} {behind.Pointer})"
            : $"{quantity}: {stated}; limit sheet {behind.Unit.Sheet.Id} ({behind.File} {behind.Pointer}), rests on {BasisWords.Of(limit.Basis)}";
    }

    private static string Target(LimitBehind behind, string quantity)
    {
        if (behind.Target is not { } seen)
        {
            return $"no target for {quantity} is in force for this unit on this day";
        }

        var by = seen switch
        {
            { Asked: { } asked } => asked.Words,
            { Order: { } order } => $"setting order {order.Id} by {order.By} ({seen.File})",
            _ => "from the registers",
        };
        var tolerance =
            seen.Target.Tolerance is not { } own ? ""
            : behind.Limit?.IsTighterThan(own) == true
                ? $" (± {own} ordered, more than the limit sheet allows, which counts)"
            : $" ± {own}";
        return $"target for {quantity}: {seen.Target.Target}{tolerance}, {by}";
    }

    private static IEnumerable<string> Stated(Check check, QuantityLimit limit)
    {
        (string Name, DualPrint? Print)[] stated = check switch
        {
            Check.LimitOnQuantity { Against: LimitSource.SettingOrder } =>
            [
                ("allowed either way from the target", limit.ToleranceAboutTarget),
            ],
            Check.LimitOnQuantity { Against: LimitSource.WornBelow } =>
            [
                ("worn at or below", limit.WornBelow),
            ],
            Check.LimitOnQuantity =>
            [
                ("at least", limit.Lower),
                ("at most", limit.Upper),
                ("aimed at", limit.Target),
            ],
            Check.Spread { Across: SpreadAcross.Sides } => [("side to side at most", limit.SideToSide)],
            Check.Spread { Across: SpreadAcross.Units } => [("across the units at most", limit.AcrossUnits)],
            Check.Spread => [("between adjacent ends at most", limit.AdjacentEnds)],
            Check.Parallelism => [("parallel within", limit.Parallelism)],
            Check.ReelForm { Of: ReelFormOf.Taper } => [("taper at most", limit.Taper)],
            Check.ReelForm => [("barrel at most", limit.Barrel)],
            Check.Twist => [("twist at most", limit.Twist)],
            _ => [],
        };
        foreach (var (name, print) in stated.Where(one => one.Print is not null))
        {
            yield return $"{name} {print}";
        }

        foreach (var school in check is Check.ProceduralLimit ? limit.Schools : [])
        {
            yield return school.Passes is null
                ? ConditionWords.Of(school.School)
                : $"{ConditionWords.Of(school.School)}: {school.Passes} passes, {school.Stops} does not";
        }
    }
}
