using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Measurement;

/// <summary>
/// Contributions combined: u² = ΣΣ cᵢcⱼ·u(xᵢ, xⱼ) (JCGM 100:2008, 5.2.2). What inputs have in common stands as lines of one
/// cause (F.1.2.3): u(xᵢ, xⱼ) is the sum of the variances of the causes both share. So lines of one cause are added
/// with their sensitivities' signs, then all causes in quadrature. Degrees of freedom by Welch-Satterthwaite,
/// ν = u⁴ / Σ(uᵢ⁴/νᵢ) (G.4.1). The order of contributions does not matter.
/// </summary>
public sealed class UncertaintyBudget
{
    private UncertaintyBudget(ImmutableArray<UncertaintyContribution> contributions)
    {
        Contributions = contributions;
        Errors = IndependentErrors.Of(
            ErrorsOf(contributions).Select(error => (error.Size, error.Known, error.IsCertified)),
            ErrorsOf(contributions).Select(error => new ErrorLine(error.Source, error.Size, error.Known))
        );
    }

    /// <summary>The lines of the budget, as given; those that come to nothing are still listed.</summary>
    public ImmutableArray<UncertaintyContribution> Contributions { get; }

    /// <summary>The combined standard uncertainty.</summary>
    public StandardUncertainty Combined => Errors.Uncertainty;

    /// <summary>The effective degrees of freedom of the combined uncertainty, plain Welch-Satterthwaite.</summary>
    public DegreesOfFreedom DegreesOfFreedom => Errors.DegreesOfFreedom;

    /// <summary>The independent errors that its lines come to.</summary>
    public IndependentErrors Errors { get; }

    internal double CombinedMillimetres => Errors.Millimetres;

    internal double EffectiveDegreesOfFreedom => Errors.EffectiveDegreesOfFreedom;

    /// <summary>
    /// Combines contributions; none at all is an exactly known length.
    /// </summary>
    public static UncertaintyBudget Of(params ImmutableArray<UncertaintyContribution> contributions) =>
        new(contributions);

    /// <summary>A value with this budget as its uncertainty.</summary>
    /// <param name="value">The best estimate.</param>
    public MeasuredValue Around(Length value) => MeasuredValue.With(value, Errors);

    /// <summary>All of it as one and the same error in every reading of a cause.</summary>
    /// <param name="cause">The cause, such as the gauge.</param>
    public SharedError SharedBy(string cause) => new(Combined, cause, DegreesOfFreedom) { Errors = Errors };

    /// <summary>Independent errors: each line of its own, and one for each cause, its sensitivities added exactly.</summary>
    private static IEnumerable<(
        double Size,
        DegreesOfFreedom Known,
        bool IsCertified,
        UncertaintySource Source
    )> ErrorsOf(ImmutableArray<UncertaintyContribution> contributions) =>
        contributions
            .Where(line => line.Cause is null)
            .Select(line =>
                (Math.Abs(line.Millimetres), line.DegreesOfFreedom, IsCertified(line), line.Source)
            )
            .Concat(
                contributions
                    .Where(line => line.Cause is not null)
                    .GroupBy(line => line.Cause)
                    .Select(shared =>
                        (
                            Together([.. shared]),
                            WorstKnown(shared),
                            shared.All(IsCertified),
                            shared.First().Source
                        )
                    )
            );

    private static bool IsCertified(UncertaintyContribution line) =>
        line.Source is UncertaintySource.Calibration;

    /// <summary>Lines of one cause: sensitivities cancel exactly where all state the same u(x).</summary>
    private static double Together(List<UncertaintyContribution> lines) =>
        lines.TrueForAll(line => line.Input == lines[0].Input)
            ? Math.Abs((double)lines.Sum(line => line.Sensitivity)) * lines[0].Input
            : Math.Abs(lines.Select(line => line.Millimetres).Order().Sum());

    /// <summary>One error is one error: where its lines state how well it is known differently, the least counts.</summary>
    private static DegreesOfFreedom WorstKnown(IEnumerable<UncertaintyContribution> lines) =>
        lines.Select(line => line.DegreesOfFreedom).MaxBy(known => known.Reciprocal);
}
