namespace ServiceRules.Domain.Measurement;

/// <summary>
/// Coverage that more uncertainty never makes smaller. By Welch-Satterthwaite the effective degrees of freedom rise when an
/// error that is well known is added to one that is little known, and k can fall faster than u rises. So k·u is taken for
/// every selection of the errors, and the largest counts. Those that are taken as known are in or out together: along
/// their sum, as along the size of any one error, k·u falls at first if at all and then rises, so that it is largest with
/// the error gone or whole.
/// </summary>
internal static class CautiousCoverage
{
    // Selections double with each error; a budget has two or three that state how well they are known.
    private const int MostErrors = 10;

    // Below what anything here is rounded to, and above what a double loses on the way to degrees of freedom and back.
    private const decimal Slack = 1e-13m;

    /// <summary>The degrees of freedom at which k·u is the largest of all selections.</summary>
    /// <param name="errors">Independent errors in order of size.</param>
    /// <param name="combined">All of them together.</param>
    /// <param name="plain">The degrees of freedom of all of them together.</param>
    public static DegreesOfFreedom Of(
        IReadOnlyList<(double Size, DegreesOfFreedom DegreesOfFreedom)> errors,
        StandardUncertainty combined,
        DegreesOfFreedom plain
    )
    {
        List<(double Size, DegreesOfFreedom DegreesOfFreedom)> doubted =
        [
            .. errors.Where(error => error.Size > 0 && !error.DegreesOfFreedom.IsInfinite),
        ];
        if (doubted.Count == 0 || combined == StandardUncertainty.Zero)
        {
            return plain;
        }

        if (doubted.Count > MostErrors)
        {
            return doubted.Select(error => error.DegreesOfFreedom).Aggregate(DegreesOfFreedom.Least);
        }

        var known = errors
            .Where(error => error.DegreesOfFreedom.IsInfinite)
            .Sum(error => error.Size * error.Size);
        var largest = Enumerable
            .Range(0, 1 << doubted.Count)
            .SelectMany(selection =>
                new[] { Expanded(doubted, selection, 0), Expanded(doubted, selection, known) }
            )
            .Max();
        return CoverageFactor.Giving(largest * (1 - Slack) / combined.Value.Millimetres);
    }

    private static decimal Expanded(
        List<(double Size, DegreesOfFreedom DegreesOfFreedom)> doubted,
        int selection,
        double known
    )
    {
        var variance = known;
        var reliability = 0.0;
        for (var i = 0; i < doubted.Count; i++)
        {
            if ((selection & (1 << i)) != 0)
            {
                var square = doubted[i].Size * doubted[i].Size;
                variance += square;
                reliability += square * square * doubted[i].DegreesOfFreedom.Reciprocal;
            }
        }

        var degrees =
            reliability > 0
                ? DegreesOfFreedom.Of(Math.Max(1, variance * variance / reliability))
                : DegreesOfFreedom.Infinite;
        var standard = StandardUncertainty.FromComputed(Math.Sqrt(variance));
        return StandardUncertainty.RoundUp(standard.Value.Millimetres * CoverageFactor.Between(degrees));
    }
}
