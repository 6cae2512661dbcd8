using System.Collections.Immutable;
using ServiceRules.Domain.Geometry;
using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Trade;

/// <summary>
/// Which part printed a wave that was measured on the turf: each part prints its own travel between two passes.
/// F07: the pitches are derived, the bands are published (MK7, MK8).
/// </summary>
public sealed record WaveDiagnosis
{
    private const decimal Pi = 3.1415926535897932384626433833m;

    private static readonly Length LongestMarcelling = Length.FromInches(2m);
    private static readonly Length ShortestWashboarding = Length.FromMillimetres(150m);
    private static readonly Length LongestWashboarding = Length.FromInches(8m);

    private WaveDiagnosis(WaveBand band, ImmutableArray<WaveCandidate> candidates)
    {
        Band = band;
        Candidates = candidates;
    }

    /// <summary>The published band that the wave falls in.</summary>
    public WaveBand Band { get; }

    /// <summary>The parts whose pitch is known, the nearest first.</summary>
    public ImmutableArray<WaveCandidate> Candidates { get; }

    /// <summary>Diagnoses a wave.</summary>
    /// <param name="pitch">The wave, tip to tip; more than nothing.</param>
    /// <param name="clip">The clip that the area was mown with; null: speeds not known, so blade and reel are left out.</param>
    /// <param name="frontRoller">Diameter of the front roller, where known; pitch = π x diameter.</param>
    /// <param name="rearRoller">Diameter of the rear roller, where known; pitch = π x diameter.</param>
    public static WaveDiagnosis Of(Length pitch, Clip? clip, Length? frontRoller, Length? rearRoller)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(pitch.Millimetres);
        (WaveCause Cause, Length? Pitch)[] parts =
        [
            (WaveCause.Blade, clip?.Spacing),
            (WaveCause.Reel, clip?.ReelPitch),
            (WaveCause.FrontRoller, Around(frontRoller)),
            (WaveCause.RearRoller, Around(rearRoller)),
        ];
        return new(
            BandOf(pitch),
            [
                .. parts
                    .Where(part => part.Pitch is not null)
                    .Select(part => new WaveCandidate(
                        part.Cause,
                        part.Pitch!.Value,
                        Off(pitch, part.Pitch.Value)
                    ))
                    .OrderBy(candidate => Math.Abs(candidate.Off))
                    .ThenBy(candidate => candidate.Cause),
            ]
        );
    }

    private static WaveBand BandOf(Length pitch) =>
        pitch <= LongestMarcelling ? WaveBand.Marcelling
        : pitch >= ShortestWashboarding && pitch <= LongestWashboarding ? WaveBand.Washboarding
        : WaveBand.Neither;

    private static Length? Around(Length? diameter) =>
        diameter is { } across ? Rounding.ToLength(Pi * across.Millimetres) : null;

    private static decimal Off(Length measured, Length pitch) =>
        Rounding.Factor((measured - pitch).Millimetres / pitch.Millimetres);
}
