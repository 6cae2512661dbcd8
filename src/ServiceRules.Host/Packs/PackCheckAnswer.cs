using ServiceRules.Application.Packs;
using ServiceRules.Host.Problems;

namespace ServiceRules.Host.Packs;

/// <summary>Packs and sheets with which nothing is wrong.</summary>
/// <param name="IsInForce">Whether they are those that are in force.</param>
/// <param name="Rules">Which they are.</param>
/// <param name="Cases">How many cases were run; all came out as they say.</param>
/// <param name="Covered">How many of the verdicts, conditions and limits the cases exercise.</param>
/// <param name="ToCover">How many there are.</param>
/// <param name="NotCovered">The first of those that no case exercises.</param>
/// <param name="LeftOut">Files that were sent and not looked at: registers stay those that are here.</param>
/// <param name="Notices">What is odd, though nothing is wrong.</param>
internal sealed record PackCheckAnswer(
    bool IsInForce,
    ToldPacks Rules,
    int Cases,
    int Covered,
    int ToCover,
    IReadOnlyList<ToldGap> NotCovered,
    IReadOnlyList<string> LeftOut,
    IReadOnlyList<ToldProblem> Notices
)
{
    // More than anyone mends at once.
    private const int ToldMost = 500;

    public static PackCheckAnswer Of(PackTried tried, string inForce) =>
        new(
            tried.Digest == inForce,
            ToldPacks.Of(tried.Rules.Book, tried.Digest),
            tried.Tested!.Cases.Length,
            tried.Coverage!.Parts.Count(part => part.Cases > 0),
            tried.Coverage.Parts.Length,
            [.. tried.Coverage.Missing.Take(ToldMost).Select(ToldGap.From)],
            tried.LeftOut,
            [.. tried.Rules.Diagnostics.Take(ToldMost).Select(ToldProblem.Of)]
        );
}
