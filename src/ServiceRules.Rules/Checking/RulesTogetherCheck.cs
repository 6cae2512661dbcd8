using System.Collections.Immutable;
using ServiceRules.Rules.Diagnostics;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Checking;

/// <summary>
/// Two rules of different identities do not say the same twice, and do not ask for what cannot both be. Looked at are the
/// rules that come to judge: of each identity that of the highest layer.
/// </summary>
internal static class RulesTogetherCheck
{
    // Two hundred rules of one kind are twenty thousand pairs; the shipped pack has three thousand in all.
    private const int MostPairs = 200_000;

    public static void Run(RuleLibrary library, Remarks remarks)
    {
        var left = MostPairs;
        var named = library.Jurisdictions.Select(one => one.Value).ToHashSet(StringComparer.Ordinal);
        var inForce = library
            .Packs.Where(pack =>
                pack.Pack.Layer is not PackLayer.Jurisdiction || named.Contains(pack.Pack.Id.Text)
            )
            .OrderBy(pack => pack.Pack.Layer)
            .SelectMany(pack => pack.Rules)
            .GroupBy(rule => rule.Value.Id.Text, StringComparer.Ordinal)
            .Select(layers => layers.Last());
        foreach (var alike in inForce.GroupBy(rule => rule.Value.Check.GetType()))
        {
            Pairs([.. alike], ref left, remarks);
        }

        if (left <= 0 && library.Packs is [var first, ..])
        {
            remarks.Notice(
                DiagnosticCode.TooMuch,
                new Placed<RulePack>(first.Pack, first.File, ""),
                "",
                "there are more rules of one kind than are held against one another",
                "fewer rules with one kind of check; the others were looked at"
            );
        }
    }

    private static void Pairs(ImmutableArray<Placed<Rule>> rules, ref int left, Remarks remarks)
    {
        var shadowed = new HashSet<int>();
        for (var later = 1; later < rules.Length; later++)
        {
            for (var earlier = 0; earlier < later && left-- > 0; earlier++)
            {
                var (one, other) = (rules[earlier], rules[later]);
                if (!shadowed.Contains(earlier) && Asks(one.Value, other.Value))
                {
                    if (shadowed.Add(later))
                    {
                        Shadowed(other, one, remarks);
                    }
                }
                else if (!shadowed.Contains(later) && Asks(other.Value, one.Value))
                {
                    if (shadowed.Add(earlier))
                    {
                        Shadowed(one, other, remarks);
                    }
                }
                else if (Contradiction(one.Value, other.Value) is var (what, right))
                {
                    remarks.Error(DiagnosticCode.RulesContradict, other, "/check/order", what, right);
                }
            }
        }
    }

    /// <summary>Whether a rule asks all that another asks, of every job that the other reaches, and weighs as much.</summary>
    private static bool Asks(Rule rule, Rule other) =>
        rule.Scope == other.Scope
        && CheckTightness.IsAtLeast(rule.Check, other.Check)
        && !LayerCheck.Loosened(rule, other).Any();

    private static void Shadowed(Placed<Rule> rule, Placed<Rule> by, Remarks remarks) =>
        remarks.Notice(
            DiagnosticCode.Shadowed,
            rule,
            "",
            $"rule `{by.Value.Id}` asks at least as much of every job that rule `{rule.Value.Id}` reaches: a breach of this one is told twice, and nothing else comes of it",
            "one of the two, or a `when`, `check` or `severity` in which this one asks more"
        );

    private static (string What, string Right)? Contradiction(Rule one, Rule other) =>
        (one.Check, other.Check) switch
        {
            (Check.OrderOfWork a, Check.OrderOfWork b) => Reversed(one, other, a.Order, b.Order),
            (Check.OrderOfEvents a, Check.OrderOfEvents b) => Reversed(one, other, a.Order, b.Order),
            _ => null,
        };

    private static (string What, string Right)? Reversed<T>(
        Rule one,
        Rule other,
        ImmutableArray<T> order,
        ImmutableArray<T> against
    )
        where T : struct, Enum
    {
        if (!CanMeet(one.When, other.When))
        {
            return null;
        }

        var shared = against.Where(order.Contains).ToList();
        var turned = shared
            .Zip(shared.Skip(1))
            .FirstOrDefault(pair => order.IndexOf(pair.First) > order.IndexOf(pair.Second));
        return turned.First.Equals(turned.Second)
            ? null
            : (
                $"rule `{other.Id}` asks for {Word(turned.First)} before {Word(turned.Second)}, and rule `{one.Id}` for the other way round: no job with both meets both",
                $"one order in both rules, or a `when` that keeps them apart from rule `{one.Id}`"
            );
    }

    /// <summary>Whether one job can come under both; what cannot be told apart here is taken to meet.</summary>
    private static bool CanMeet(Applicability one, Applicability other) =>
        Share(one.Tasks, other.Tasks)
        && Share(one.Sheets, other.Sheets)
        && Share(one.Areas, other.Areas)
        && Agree(one.Bedknife, other.Bedknife)
        && Agree(one.Place, other.Place)
        && Agree(one.Isolation, other.Isolation)
        && Agree(one.School, other.School)
        && Agree(one.Ground, other.Ground)
        && (one.From ?? DateOnly.MinValue) <= (other.Until ?? DateOnly.MaxValue)
        && (other.From ?? DateOnly.MinValue) <= (one.Until ?? DateOnly.MaxValue);

    private static bool Share<T>(ImmutableArray<T> one, ImmutableArray<T> other) =>
        one.IsEmpty || other.IsEmpty || one.Intersect(other).Any();

    private static bool Agree<T>(T? one, T? other)
        where T : struct => one is null || other is null || one.Equals(other);

    private static string Word<T>(T word)
        where T : struct, Enum => $"`{FileWord.Of(word)}`";
}
