using System.Collections.Immutable;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;

namespace ServiceRules.Engine.Tests.Differential;

/// <summary>Some of the shipped rules, in any order, with severities and policies of their own.</summary>
internal static class RandomPack
{
    public static ImmutableArray<Rule> Of(int seed)
    {
        var random = new Random(seed);
        Rule[] shuffled = [.. Shelf.Rules];
        random.Shuffle(shuffled);
        return
        [
            .. shuffled
                .Take(random.Next(1, shuffled.Length + 1))
                .Select(rule =>
                    random.Next(4) > 0
                        ? rule
                        : rule with
                        {
                            Severity = Any<Severity>(random),
                            Unproven = Any<UnprovenPolicy>(random),
                        }
                ),
        ];
    }

    private static T Any<T>(Random random)
        where T : struct, Enum
    {
        T[] all = Enum.GetValues<T>();
        return all[random.Next(all.Length)];
    }
}
