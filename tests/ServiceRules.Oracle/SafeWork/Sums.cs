namespace ServiceRules.Oracle.SafeWork;

/// <summary>Sums over people, sources and devices.</summary>
internal static class Sums
{
    /// <summary>The worst of all; not applicable where there is nothing to judge.</summary>
    public static Possible OfAll(this IEnumerable<Possible> each) =>
        each.Aggregate(Possible.NotApplicable, (sum, next) => sum.And(next));

    /// <summary>The same, where nothing to judge may also count as met or as not there yet.</summary>
    public static Possible OfAllOrNone(this IEnumerable<Possible> each)
    {
        var sum = each.OfAll();
        return sum == Possible.NotApplicable ? Possible.Any & ~Possible.NotMet : sum;
    }

    /// <summary>Where more people may count than those of whom the table surely speaks, only a breach is sure.</summary>
    public static Possible OrAny(this Possible possible, bool perhaps) =>
        perhaps && possible != Possible.NotMet ? Possible.Any : possible;

    /// <summary>Where the table is silent on what also may count against it.</summary>
    public static Possible OrStricter(this Possible possible, bool perhaps) =>
        perhaps && possible.HasFlag(Possible.Met) ? possible | Possible.NotMet : possible;
}
