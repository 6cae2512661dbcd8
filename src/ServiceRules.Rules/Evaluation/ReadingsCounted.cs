using ServiceRules.Domain.Quantities;

namespace ServiceRules.Rules.Evaluation;

/// <summary>How many of the readings at one place count, where one of them contradicts the latest.</summary>
/// <param name="All">Readings of equal standing at the place.</param>
/// <param name="Counting">Those of them since the last that contradicts the latest.</param>
/// <param name="Contradicting">Those of them, wherever they stand, that contradict the latest.</param>
/// <param name="LastLeftOut">The last one that contradicts the latest, as it was read.</param>
/// <param name="IsSettled">What counts may prove; otherwise it only shows a breach.</param>
public sealed record ReadingsCounted(
    int All,
    int Counting,
    int Contradicting,
    Length LastLeftOut,
    bool IsSettled
)
{
    /// <summary>What is to be told of it, in words, the place not named.</summary>
    /// <param name="system">The units of the reading.</param>
    public string Words(UnitSystem system)
    {
        var left = Wording.Of(LastLeftOut, system);
        var contradict = Contradicting == 1 ? "1 of them contradicts" : $"{Contradicting} of them contradict";
        var counted = $"of {All} readings the last {Counting} count, since the one before, {left}";
        return IsSettled
            ? $"{counted}, {ToldThoughMet.ContradictsLatest} ({contradict} it)"
            : $"{counted}, contradicts the latest, and they show what is out but prove nothing in ({contradict} it): it is settled once "
                + "more readings agree with the latest than do not, and so for gauges";
    }
}
