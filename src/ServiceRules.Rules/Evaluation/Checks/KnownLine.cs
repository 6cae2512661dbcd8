using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Geometry;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>A fitted line with the places that it runs through.</summary>
/// <param name="Fit">The line.</param>
/// <param name="Places">The places.</param>
internal sealed record KnownLine(WidthFit Fit, ImmutableArray<PlaceKnown> Places)
{
    /// <summary>Why nothing on this line proves anything, or None: the gravest doubt about its readings.</summary>
    public FindingReason Doubt => Doubts.Gravest(Places);

    public UnitSystem System => Places[0].System;

    public int? Blade => Places[0].Blade;

    /// <summary>The one gauge that all readings were taken with; null: several, or none named.</summary>
    public Id<Instrument>? Gauge => OneGauge(Places);

    /// <summary>What all readings share; zero when they were taken with different gauges.</summary>
    public StandardUncertainty Shared => SharedBy(Places);

    public static KnownLine? Through(ImmutableArray<PlaceKnown> places, Length width) =>
        WidthFit.Through(
            [
                .. places.Select(place => new StationReading(place.Station!.Value, place.Knowledge!)
                {
                    Shared = place.Gauge is { } gauge ? new(place.Shared, gauge.Text) : null,
                }),
            ],
            width
        )
            is { } fit
            ? new(fit, places)
            : null;

    private static Id<Instrument>? OneGauge(ImmutableArray<PlaceKnown> places) =>
        places.All(place => place.Gauge == places[0].Gauge) ? places[0].Gauge : null;

    private static StandardUncertainty SharedBy(ImmutableArray<PlaceKnown> places) =>
        OneGauge(places) is null ? StandardUncertainty.Zero : places[0].Shared;
}
