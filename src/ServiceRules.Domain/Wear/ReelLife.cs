using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Wear;

/// <summary>
/// What is left of a reel above a diameter limit: a service limit or a shop's own, as the caller says. F25: limits
/// sourced (MK4, S15, S44), forecast derived; rates are the site's own, none are published.
/// </summary>
public static class ReelLife
{
    /// <summary>Diameter left: D - limit; negative below it.</summary>
    public static Length Remaining(Length diameter, Length limit) => diameter - limit;

    /// <summary>Hours left: (D - limit) / wear; zero at or below the limit, none when nothing wears.</summary>
    /// <param name="diameter">Diameter now.</param>
    /// <param name="limit">Diameter limit.</param>
    /// <param name="wear">Diameter lost in an hour; more than nothing, its sign left out.</param>
    public static RunningTime? HoursLeft(Length diameter, Length limit, WearRate wear) =>
        wear <= WearRate.Zero
            ? null
            : RunningTime.FromHours(Math.Max(0m, (diameter - limit).Millimetres / wear.MillimetresPerHour));

    /// <summary>Whole grinds left: (D - limit) / loss from grind to grind, rounded down; none at or below the limit.</summary>
    /// <param name="diameter">Diameter now.</param>
    /// <param name="limit">Diameter limit.</param>
    /// <param name="perGrind">Diameter lost from one grind to the next, wear included; more than nothing.</param>
    public static int GrindsLeft(Length diameter, Length limit, Length perGrind) =>
        WholeParts.Of(diameter - limit, perGrind);
}
