using ServiceRules.Domain;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Rules.Evaluation;

/// <summary>
/// What stands behind the scale of a gauge where that has to be told: no certificate, or one that states more than is taken
/// where there is none.
/// </summary>
/// <param name="Gauge">The gauge.</param>
/// <param name="Certified">U (k = 2) by its certificate; null: it has none.</param>
/// <param name="Assumed">U (k = 2) of the two steps that a gauge without a certificate is held to.</param>
/// <param name="TwoSteps">Those two steps.</param>
public sealed record GaugeScale(Id<Instrument> Gauge, Length? Certified, Length Assumed, Length TwoSteps)
{
    /// <summary>Of a gauge that has no certificate, or a worse one than none; null of any other.</summary>
    /// <param name="gauge">The gauge.</param>
    /// <param name="step">The step that it shows.</param>
    public static GaugeScale? Of(Instrument gauge, Length step)
    {
        var assumed = UncertaintyContribution.NotCalibrated(step).Uncertainty.Value;
        var certified = gauge.Calibration?.Contribution.Uncertainty.Value;
        return certified is { } stated && stated <= assumed
            ? null
            : new(gauge.Id, certified * Coverage, assumed * Coverage, step * Coverage);
    }

    /// <summary>
    /// What is said beside a verdict: of no certificate where something is met by what was assumed in its place, of a worse one
    /// where nothing is proven; else nothing.
    /// </summary>
    /// <param name="verdict">The verdict.</param>
    /// <param name="system">The units of the readings.</param>
    public string? Words(Verdict verdict, UnitSystem system) =>
        (Certified, verdict) switch
        {
            (null, Verdict.Met) =>
                $"gauge {Gauge} has no certificate: its scale is taken to be within two of its steps, {Wording.Of(TwoSteps, system)} (common practice, no source); nobody compared it with anything",
            ({ } stated, Verdict.Unproven) =>
                $"by its certificate gauge {Gauge} may be off by {UncertaintyPrint.Of(stated, system)}, more than the {UncertaintyPrint.Of(Assumed, system)} taken of a gauge without one (two of its steps; common practice, no source): what the certificate found counts, and leaving it out would make no reading better",
            _ => null,
        };

    private const int Coverage = 2;
}
