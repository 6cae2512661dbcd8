using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Wear;

/// <summary>
/// When wear comes to a limit, counted from the fitted line at the last hours and not from the last reading, which may
/// be a poor one. A closed family. F34 of the trade reference (standard statistics).
/// </summary>
public abstract record WearForecast
{
    private WearForecast() { }

    /// <summary>It comes to the limit.</summary>
    /// <param name="Left">Hours left from the last reading, by the line itself.</param>
    /// <param name="Earliest">Fewest hours left within the band; none: the readings do not bound it.</param>
    /// <param name="Latest">Most hours left within the band; none: the band holds rates that never come to it.</param>
    /// <param name="Level">How much the band covers.</param>
    public sealed record Reaches(
        RunningTime Left,
        RunningTime? Earliest,
        RunningTime? Latest,
        Probability Level
    ) : WearForecast;

    /// <summary>The line stands at the limit or past it.</summary>
    /// <param name="By">How far past; zero or more.</param>
    public sealed record Reached(Length By) : WearForecast;

    /// <summary>The readings show no wear towards the limit.</summary>
    public sealed record NotApproaching : WearForecast;
}
