using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;

namespace ServiceRules.Rules.Evaluation;

/// <summary>
/// Known steps of one adjuster between two readings of its own quantity at one place of a unit, all turned one way and
/// nothing else disturbing them: what tells the step really obtained.
/// </summary>
/// <param name="Adjuster">What was turned.</param>
/// <param name="Quantity">What was read before and after.</param>
/// <param name="Station">Distance from the left end; null: one place, or the whole width.</param>
/// <param name="Blade">Reel blade, where one was named.</param>
/// <param name="Turned">Steps turned, on the busier side; one or more.</param>
/// <param name="Trial">The steps as they count at the place, with the change that was read.</param>
/// <param name="System">Units of the readings.</param>
/// <param name="Evidence">Entries it rests on, JSON pointers.</param>
public sealed record StepsTried(
    AdjusterKind Adjuster,
    MeasuredQuantity Quantity,
    Length? Station,
    int? Blade,
    int Turned,
    StepTrial Trial,
    UnitSystem System,
    ImmutableArray<string> Evidence
)
{
    /// <summary>
    /// Whose step it tells: the side that alone was turned; of both, the one that the place is nearer to, if it was turned no
    /// less; both for a whole width; none where it tells only what both did together.
    /// </summary>
    public Side? TellsOf { get; init; }

    /// <summary>Index of the entry that read it before the steps.</summary>
    public int ReadFrom { get; init; }
}
