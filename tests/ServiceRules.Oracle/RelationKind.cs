using ServiceRules.Domain.Records;
using ServiceRules.Rules.Model;

namespace ServiceRules.Oracle;

/// <summary>One quantity against another, place by place.</summary>
internal static class RelationKind
{
    public static Possible Related(Facts facts, UnitWork unit, Check.Relation check, RuleDecision decision)
    {
        var spots = new Spots(facts, unit, check.Quantity);
        var others = new Spots(facts, unit, check.Other);
        if (!spots.IsPlain || !others.IsPlain)
        {
            return Possible.Judged;
        }

        if (spots.IsContested || others.IsContested)
        {
            return Possible.NeverMet;
        }

        if (spots.Known.Count == 0 || others.Known.Count == 0)
        {
            return Possible.Unproven;
        }

        var sum =
            spots.BothStationsKnown
            && spots.Known.Count == spots.All.Count
            && others.Known.Count == others.All.Count
                ? Possible.Met
                : Possible.NeverNotMet;
        foreach (var spot in spots.Known)
        {
            decimal most = check.Allowance.In(spot.System).Millimetres;
            var same = others.Known.FirstOrDefault(o => o.At == spot.At);
            IReadOnlyList<(decimal, Spot)>? beside =
                same is not null ? [(-1, same)]
                : Line.Through(others) is { } line && spot.At is { } at ? line.At(at, -1)
                : null;
            if (beside is null || beside.Any(b => b.Item2.System != spot.System))
            {
                return Possible.Judged;
            }

            decimal? least = check.How == QuantityRelation.EqualTo ? -most : null;
            sum = sum.And(Amount.Sum([(1, spot), .. beside]).Within(least, most, decision));
        }

        return sum;
    }
}
