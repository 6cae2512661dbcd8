using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Measurement;

/// <summary>
/// What temperature adds to the uncertainty of a length compared with a gauge, by the model of JCGM 100:2008, H.1:
/// l = l₀·(1 - δα·θ - α·δθ), where θ is the deviation from the reference temperature of 20 °C (ISO 1), α the
/// coefficient of expansion, δα and δθ the differences of coefficient and temperature between gauge and part,
/// both expected to be nil.
/// </summary>
public sealed record ThermalExpansion
{
    // Steel with steel, as in JCGM 100:2008, H.1.3.3 and H.1.3.5; 11.5e-6 per kelvin, within 2e-6, alike to within 1e-6.
    private const decimal Steel = 11.5e-6m;
    private const decimal SteelWithin = 2e-6m;
    private const decimal AlikeWithin = 1e-6m;

    // How well somebody reads the temperature of a workshop, in kelvin: from memory, no source.
    private const decimal ReadWithin = 1m;

    private const decimal Reference = 20m;

    internal ThermalExpansion(Input deviation, Input coefficient, Input coefficients, Input temperatures)
    {
        Deviation = deviation;
        Coefficient = coefficient;
        Coefficients = coefficients;
        Temperatures = temperatures;
    }

    /// <summary>θ, kelvin.</summary>
    internal Input Deviation { get; }

    /// <summary>α, per kelvin.</summary>
    internal Input Coefficient { get; }

    /// <summary>δα, per kelvin.</summary>
    internal Input Coefficients { get; }

    /// <summary>δθ, kelvin.</summary>
    internal Input Temperatures { get; }

    /// <summary>
    /// A steel part read with a steel gauge in a workshop of this temperature. Gauge and part may differ by as much as the
    /// workshop differs from 20 °C, one having come from elsewhere: common practice, no source.
    /// </summary>
    /// <param name="workshop">The workshop's temperature as noted.</param>
    public static ThermalExpansion SteelWithSteel(Temperature workshop)
    {
        var deviation = workshop.DegreesCelsius - Reference;
        return new(
            new((double)deviation, Rectangular(ReadWithin)),
            new((double)Steel, Rectangular(SteelWithin)),
            new(0, Rectangular(AlikeWithin)),
            new(0, Rectangular(Math.Abs(deviation)))
        );
    }

    /// <summary>
    /// The lines of the budget: of first order with sensitivities -lθ for δα and -lα for δθ (α and θ come to nothing, since
    /// δα and δθ are expected nil, and are listed all the same), and of second order the products l·u(δα)·u(θ)
    /// and l·u(α)·u(δθ) (JCGM 100:2008, note to 5.1.2, and H.1.7).
    /// </summary>
    /// <param name="length">l, the length that expands.</param>
    public ImmutableArray<UncertaintyContribution> Of(Length length)
    {
        var size = Math.Abs((double)length.Millimetres);
        return
        [
            Line(size * Math.Abs(Deviation.Estimate), Coefficients),
            Line(size * Coefficient.Estimate, Temperatures),
            Line(size * Temperatures.Estimate, Coefficient),
            Line(size * Coefficients.Estimate, Deviation),
            Line(size * Deviation.Uncertainty, Coefficients),
            Line(size * Coefficient.Uncertainty, Temperatures),
        ];
    }

    private static UncertaintyContribution Line(double sensitivity, Input input) =>
        new(UncertaintySource.Temperature, sensitivity * input.Uncertainty, input.DegreesOfFreedom);

    private static double Rectangular(decimal halfWidth) => (double)halfWidth / Math.Sqrt(3);

    /// <summary>An input: its estimate, its standard uncertainty and how well that is known.</summary>
    internal readonly record struct Input(
        double Estimate,
        double Uncertainty,
        DegreesOfFreedom DegreesOfFreedom = default
    );
}
