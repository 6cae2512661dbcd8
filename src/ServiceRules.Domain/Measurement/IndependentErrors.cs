using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Measurement;

/// <summary>
/// The independent errors behind a standard uncertainty, each with its size and how well that is known. Those taken as
/// known stand as one, in quadrature.
/// <para>
/// By Welch-Satterthwaite ν = u⁴/Σ(uᵢ⁴/νᵢ) (JCGM 100:2008, G.4.1) alone, k·u can fall when an error grows: one that is well
/// known, added to one that is little known, raises ν, and k can fall faster than u rises. What is expanded here is therefore
/// the most that k(ν)·u comes to for any errors of at most these sizes, which by its meaning never falls when one of
/// them grows. Along the size of any one error, and along that of all that are taken as known together, k·u falls at first
/// if at all and then rises, since -d ln k/d ln ν falls as ν rises; so the most is reached with each of them gone
/// or whole, and those selections are all that need be tried (derived).
/// </para>
/// </summary>
public sealed class IndependentErrors
{
    // Selections double with each error; a budget has two or three that state how well they are known.
    private const int MostSelected = 10;

    private readonly ImmutableArray<(double Size, DegreesOfFreedom Known, bool IsCertified)> _errors;

    private readonly double _combined;

    private readonly Func<ImmutableArray<ErrorLine>> _lines;

    private ExpandedUncertainty? _expanded;

    private IndependentErrors(
        IEnumerable<(double Size, DegreesOfFreedom Known, bool IsCertified)> errors,
        Func<ImmutableArray<ErrorLine>> lines
    )
    {
        _lines = lines;
        // In order of size: the same errors in any order give the same bits.
        List<(double Size, DegreesOfFreedom Known, bool IsCertified)> ordered =
        [
            .. errors
                .Where(error => error.Size > 0)
                .OrderBy(error => error.Size)
                .ThenBy(error => error.Known.Reciprocal),
        ];
        var variance = ordered.Sum(error => Square(error.Size));
        _combined = Math.Sqrt(variance);
        EffectiveDegreesOfFreedom = Effective(ordered, variance);
        var known = ordered.Where(error => error.Known.IsInfinite).Sum(error => Square(error.Size));
        _errors =
        [
            .. ordered
                .Where(error => !error.Known.IsInfinite)
                .Concat(known > 0 ? [(Math.Sqrt(known), DegreesOfFreedom.Infinite, false)] : []),
        ];
        Uncertainty = StandardUncertainty.FromComputed(_combined);
        DegreesOfFreedom = DegreesOfFreedom.Of(EffectiveDegreesOfFreedom);
    }

    /// <summary>All of them together, in quadrature.</summary>
    public StandardUncertainty Uncertainty { get; }

    /// <summary>The effective degrees of freedom of all of them together, plain Welch-Satterthwaite.</summary>
    public DegreesOfFreedom DegreesOfFreedom { get; }

    /// <summary>U at 95.45 %: the most that k·u comes to for errors of at most these sizes.</summary>
    public ExpandedUncertainty Expanded =>
        _expanded ??= new(
            Length.FromMillimetres(Largest(CoverageFactor.Between)),
            FactorOf(CoverageFactor.Between)
        );

    /// <summary>The same errors by their origin, to be told; nothing is reckoned with them.</summary>
    internal ImmutableArray<ErrorLine> Lines => _lines();

    internal double Millimetres => _combined;

    internal double EffectiveDegreesOfFreedom { get; }

    internal bool AreAllKnown => _errors.All(error => error.Known.IsInfinite);

    /// <summary>The selections of which one expands to the most: those with all of the known errors or none of them.</summary>
    internal ImmutableArray<(double Millimetres, DegreesOfFreedom DegreesOfFreedom)> Selections =>
        _errors.Count(error => !error.Known.IsInfinite) > MostSelected
            ?
            [
                (_combined, DegreesOfFreedom),
                (_combined, _errors.Select(error => error.Known).Aggregate(DegreesOfFreedom.Least)),
            ]
            : [.. Enumerable.Range(1, (1 << _errors.Length) - 1).Select(Selected)];

    internal static IndependentErrors Of(
        IEnumerable<(double Size, DegreesOfFreedom Known, bool IsCertified)> errors
    ) => new(errors, () => []);

    internal static IndependentErrors Of(
        IEnumerable<(double Size, DegreesOfFreedom Known, bool IsCertified)> errors,
        IEnumerable<ErrorLine> lines
    ) => new(errors, () => ErrorLine.Together(lines));

    internal static IndependentErrors One(double size, DegreesOfFreedom known) =>
        new([(size, known, false)], () => size > 0 ? [new(UncertaintySource.Reading, size, known)] : []);

    /// <summary>One error that others made up, told as they are.</summary>
    internal static IndependentErrors One(
        double size,
        DegreesOfFreedom known,
        Func<ImmutableArray<ErrorLine>> madeUpOf
    ) => new([(size, known, false)], madeUpOf);

    /// <summary>Errors of several origins, all independent of one another.</summary>
    internal static IndependentErrors Together(IEnumerable<IndependentErrors> origins) => Of([.. origins]);

    private static IndependentErrors Of(ImmutableArray<IndependentErrors> origins) =>
        new(
            origins.SelectMany(origin => origin._errors),
            () => ErrorLine.Together(origins.SelectMany(origin => origin.Lines))
        );

    /// <summary>
    /// Errors of one origin that are independent in size but rest on one estimate of it: readings of one gauge scatter alike,
    /// and that estimate is no better known for being used twice. Where it is stated differently, the least counts. What a
    /// certificate states of itself is an estimate apart: a study of few readings makes it no less known.
    /// </summary>
    internal static IndependentErrors OfOneOrigin(IEnumerable<IndependentErrors> alike)
    {
        ImmutableArray<IndependentErrors> all = [.. alike];
        var errors = all.SelectMany(each => each._errors).ToList();
        return new(
            errors
                .Where(error => error.Known.IsInfinite)
                .Concat(
                    errors
                        .Where(error => !error.Known.IsInfinite)
                        .OrderBy(error => error.Size)
                        .GroupBy(error => error.IsCertified)
                        .Select(estimate =>
                            (
                                Math.Sqrt(estimate.Sum(error => Square(error.Size))),
                                estimate.Select(error => error.Known).Aggregate(DegreesOfFreedom.Least),
                                estimate.Key
                            )
                        )
                ),
            () => ErrorLine.OfOneOrigin(all.SelectMany(each => each.Lines))
        );
    }

    /// <summary>The same make-up of another size.</summary>
    internal IndependentErrors ScaledTo(double size) =>
        new(
            _errors.Select(error => (error.Size / _combined * size, error.Known, error.IsCertified)),
            () => [.. Lines.Select(line => line.Times(size / _combined))]
        );

    /// <summary>
    /// The same and, where they come to less than a size, what is lacking as one more, taken as known. So neither falls when any
    /// of them grows: what a known one adds is no longer lacking, and what one that is little known adds expands to more.
    /// </summary>
    internal IndependentErrors AtLeast(double size) =>
        _combined >= size
            ? this
            : new(
                _errors.Append(
                    (
                        Size: Math.Sqrt(Square(size) - Square(_combined)),
                        Known: DegreesOfFreedom.Infinite,
                        IsCertified: false
                    )
                ),
                () =>
                    ErrorLine.Together(
                        Lines.Append(
                            new(
                                UncertaintySource.Scatter,
                                Math.Sqrt(Square(size) - Square(_combined)),
                                DegreesOfFreedom.Infinite
                            )
                        )
                    )
            );

    internal IndependentErrors Times(double factor) => ScaledTo(_combined * factor);

    /// <summary>The most that factor times u comes to over the selections, in millimetres rounded up to the quantum.</summary>
    internal decimal Largest(Func<DegreesOfFreedom, decimal> factor) =>
        Selections
            .Select(each => Product(each.Millimetres, factor(each.DegreesOfFreedom), each.DegreesOfFreedom))
            .DefaultIfEmpty(0)
            .Max();

    /// <summary>By what the combined u is multiplied then: the factor itself, where all errors together come to the most.</summary>
    internal decimal FactorOf(Func<DegreesOfFreedom, decimal> factor)
    {
        var plain = factor(DegreesOfFreedom);
        var largest = Largest(factor);
        return largest == Product(_combined, plain, DegreesOfFreedom)
            ? plain
            : Math.Round(largest / Uncertainty.Value.Millimetres, FactorDecimals);
    }

    /// <summary>What they come to together, and on how many degrees of freedom.</summary>
    public override string ToString() => $"{Uncertainty} on {DegreesOfFreedom}";

    private const int FactorDecimals = 12;

    private (double, DegreesOfFreedom) Selected(int selection)
    {
        if (selection == (1 << _errors.Length) - 1)
        {
            return (_combined, DegreesOfFreedom);
        }

        var errors = _errors.Where((_, i) => (selection & (1 << i)) != 0).ToList();
        var variance = errors.Sum(error => Square(error.Size));
        return (Math.Sqrt(variance), DegreesOfFreedom.Of(Effective(errors, variance)));
    }

    private static double Effective(
        List<(double Size, DegreesOfFreedom Known, bool IsCertified)> errors,
        double variance
    )
    {
        var reliability = errors.Sum(error => Square(Square(error.Size)) * error.Known.Reciprocal);
        return reliability > 0 ? variance * variance / reliability : double.PositiveInfinity;
    }

    /// <summary>
    /// Where the factor falls as errors are added, u must not have been rounded up before: it would jump, and what follows fall.
    /// </summary>
    private static decimal Product(double millimetres, decimal factor, DegreesOfFreedom known) =>
        StandardUncertainty.RoundUp(
            factor
                * (
                    known.IsInfinite
                        ? StandardUncertainty.FromComputed(millimetres).Value.Millimetres
                        : (decimal)Math.Min(millimetres, (double)StandardUncertainty.Largest.Millimetres)
                )
        );

    private static double Square(double value) => value * value;
}
