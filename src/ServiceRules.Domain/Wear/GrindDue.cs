using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Wear;

/// <summary>
/// Hours until the next grind: what is left of the interval, or of any limit if that comes first. F37: intervals sourced
/// (S43: greens and tees 200 to 250 h, fairways 375 to 425 h, rough 400 to 500 h), others differ widely (S27, S44).
/// </summary>
public static class GrindDue
{
    /// <summary>Hours left; negative when it is overdue.</summary>
    /// <param name="interval">Hours from grind to grind.</param>
    /// <param name="sinceGrind">Hours since the last grind.</param>
    /// <param name="toLimit">Forecast hours to the limit that comes first; none known: the interval alone.</param>
    public static RunningTime In(RunningTime interval, RunningTime sinceGrind, RunningTime? toLimit)
    {
        var left = interval - sinceGrind;
        return toLimit < left ? toLimit.Value : left;
    }
}
