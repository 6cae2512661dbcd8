using System.Collections.Immutable;
using ServiceRules.Domain.Geometry;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>A fitted line with the places that it runs through.</summary>
/// <param name="Fit">The line.</param>
/// <param name="Places">The places.</param>
internal sealed record KnownLine(WidthFit Fit, ImmutableArray<PlaceKnown> Places)
{
    // Common practice, no source. At that distance the doubt of two readings alike is root of five times that of one.
    private const decimal FurthestBeyond = 1m;

    /// <summary>
    /// Whether the line tells anything at a distance from the left end: between its outer stations, and beyond them by no
    /// more than they lie apart.
    /// </summary>
    public bool Reaches(Length at)
    {
        var (first, last) = (
            Places.Min(place => place.Station!.Value),
            Places.Max(place => place.Station!.Value)
        );
        var beyond = (last - first) * FurthestBeyond;
        return at >= first - beyond && at <= last + beyond;
    }

    /// <summary>Whether it tells anything of both ends of the unit, and so of a difference between them.</summary>
    public bool ReachesBothEnds => Reaches(Length.Zero) && Reaches(Fit.Width);

    /// <summary>What was read at an end, or so near that it tells it; none where the line alone tells of it.</summary>
    public PlaceKnown? ReadAt(Length end) =>
        Fit.IsRead(end) ? Places.MinBy(place => (place.Station!.Value - end).Abs) : null;

    /// <summary>Whether both ends were read, so that no bow leaves them open and nothing nearer can be read.</summary>
    public bool HasReadBothEnds => Fit.IsRead(Length.Zero) && Fit.IsRead(Fit.Width);

    /// <summary>Why nothing on this line proves anything, or None: the gravest doubt about its readings.</summary>
    public FindingReason Doubt => Doubts.Gravest(Places);

    /// <summary>
    /// The line as its gauge alone tells it, without the doubt of steps since and of readings that lie on no straight line;
    /// none where there is no such doubt.
    /// </summary>
    public KnownLine? AsReadAndEven =>
        (Fit.IsUneven || Places.Any(place => place.AsRead is not null))
        && Through(
            [.. Places.Select(place => place with { Knowledge = place.AsRead ?? place.Knowledge })],
            Fit.Width
        )
            is { } plain
            ? plain with
            {
                Fit = plain.Fit.AsIfEven(),
            }
            : null;

    /// <summary>The units of its readings, to say lengths in; millimetres where they are not all of one system.</summary>
    public UnitSystem System => IsReadInBoth ? UnitSystem.Metric : Places[0].System;

    /// <summary>Whether the readings that it runs through are not all of one unit system.</summary>
    public bool IsReadInBoth => Places.Any(place => place.IsReadInBoth || place.System != Places[0].System);

    public int? Blade => Places[0].Blade;

    /// <summary>
    /// What all readings share; none when they were taken with different gauges.
    /// </summary>
    public SharedError? Shared =>
        Places[0].Shared is { } shared && Places.All(place => place.Shared?.Cause == shared.Cause)
            ? shared.WithRestOf(Places.Select(place => place.Shared!.Value))
            : null;

    public static KnownLine? Through(ImmutableArray<PlaceKnown> places, Length width) =>
        WidthFit.Through(
            [
                .. places.Select(place => new StationReading(place.Station!.Value, place.Knowledge!)
                {
                    Shared = place.Shared,
                }),
            ],
            width
        )
            is { } fit
            ? new(fit, places)
            : null;
}
