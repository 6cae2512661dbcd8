using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Oracle;

/// <summary>Sums of opinions.</summary>
public static class Opinions
{
    private static readonly Possible[] Worst =
    [
        Possible.NotMet,
        Possible.Unproven,
        Possible.Met,
        Possible.NotApplicable,
    ];

    /// <summary>Whether exactly one verdict is possible.</summary>
    public static bool IsSure(this Possible possible) =>
        possible is Possible.Met or Possible.NotMet or Possible.Unproven or Possible.NotApplicable;

    /// <summary>Whether a verdict is among the possible ones.</summary>
    public static bool Allows(this Possible possible, Verdict verdict) => possible.HasFlag(Of(verdict));

    /// <summary>One verdict.</summary>
    public static Possible Of(Verdict verdict) =>
        verdict switch
        {
            Verdict.Met => Possible.Met,
            Verdict.NotMet => Possible.NotMet,
            Verdict.Unproven => Possible.Unproven,
            _ => Possible.NotApplicable,
        };

    /// <summary>What both together come to: a breach at one place is a breach, and what is not proven is not met.</summary>
    public static Possible And(this Possible left, Possible right)
    {
        if (left == Possible.None || right == Possible.None)
        {
            return left | right;
        }

        var sum = Possible.None;
        foreach (var a in Worst)
        {
            foreach (var b in Worst)
            {
                if (left.HasFlag(a) && right.HasFlag(b))
                {
                    sum |= Array.IndexOf(Worst, a) < Array.IndexOf(Worst, b) ? a : b;
                }
            }
        }

        return sum;
    }
}
