namespace ServiceRules.Domain.Measurement;

/// <summary>
/// The part of a reading's uncertainty that is one and the same error in every reading of one cause: the calibration and
/// zero of the gauge that took them (JCGM 100:2008, F.1.2.3).
/// </summary>
/// <param name="Uncertainty">Its standard uncertainty, part of the reading's own and not beside it.</param>
/// <param name="Cause">Which cause; readings of different causes share nothing.</param>
/// <param name="DegreesOfFreedom">How well it is known.</param>
public readonly record struct SharedError(
    StandardUncertainty Uncertainty,
    string Cause,
    DegreesOfFreedom DegreesOfFreedom = default
)
{
    /// <summary>
    /// How well the rest of the reading's uncertainty is known, which is its own; none where only the whole is known,
    /// whose degrees of freedom then count for the rest too.
    /// </summary>
    public DegreesOfFreedom? Rest { get; init; }

    /// <summary>The independent errors that it comes to; one, where no more is known than its size.</summary>
    public IndependentErrors Errors
    {
        get => _errors ?? IndependentErrors.One(Uncertainty.Millimetres, DegreesOfFreedom);
        init => _errors = value;
    }

    private readonly IndependentErrors? _errors;

    private readonly IndependentErrors? _rest;

    /// <summary>What made up the rest, where it is reckoned with as one.</summary>
    private IndependentErrors? RestMadeUpOf { get; init; }

    /// <summary>The same, with the rest of the reading's uncertainty as its own budget has it.</summary>
    /// <param name="own">The budget of what the reading does not share.</param>
    public SharedError WithRest(UncertaintyBudget own) =>
        new(Uncertainty, Cause, DegreesOfFreedom, own.DegreesOfFreedom, _errors, own.Errors);

    /// <summary>
    /// The same for what follows from several readings: of a weighted sum the rest is never known worse than that of the reading
    /// whose rest expands to the most (JCGM 100:2008, G.4.1).
    /// </summary>
    /// <param name="readings">What each of them shares, one or more.</param>
    public SharedError WithRestOf(IEnumerable<SharedError> readings)
    {
        var worst = readings.MaxBy(each => each.RestFactor);
        return new(
            Uncertainty,
            Cause,
            DegreesOfFreedom,
            worst.Rest ?? DegreesOfFreedom.Infinite,
            _errors,
            worst._rest
        );
    }

    /// <summary>The same as told, rounded: beside readings of which all is taken as known.</summary>
    internal SharedError AsTold
    {
        get
        {
            var (shared, rest) = (Errors, _rest);
            return new(
                Uncertainty,
                Cause,
                DegreesOfFreedom,
                Rest,
                IndependentErrors.One(Uncertainty.Millimetres, DegreesOfFreedom, () => shared.Lines),
                restErrors: null
            )
            {
                RestMadeUpOf = rest,
            };
        }
    }

    /// <summary>What the rest is made up of, in a reading that is known so.</summary>
    internal IndependentErrors RestOf(MeasuredValue whole)
    {
        var (all, shared) = (whole.Errors.Millimetres, Errors.Millimetres);
        var size = Math.Sqrt(Math.Max(0, (all * all) - (shared * shared)));
        return _rest is { Millimetres: > 0 } rest ? rest.ScaledTo(size)
            : Rest is { } degrees && RestMadeUpOf is { } origins
                ? IndependentErrors.One(size, degrees, () => origins.ScaledTo(size).Lines)
            : Rest is { } known ? IndependentErrors.One(size, known)
            : whole.Errors.ScaledTo(size);
    }

    private decimal RestFactor =>
        _rest?.Expanded.CoverageFactor ?? CoverageFactor.Between(Rest ?? DegreesOfFreedom.Infinite);

    private SharedError(
        StandardUncertainty uncertainty,
        string cause,
        DegreesOfFreedom degreesOfFreedom,
        DegreesOfFreedom? rest,
        IndependentErrors? errors,
        IndependentErrors? restErrors
    )
        : this(uncertainty, cause, degreesOfFreedom)
    {
        Rest = rest;
        _errors = errors;
        _rest = restErrors;
    }

    // No gauge can be called that: an identity has no spaces.
    private const string NoGauge = "no gauge named";

    /// <summary>
    /// Nothing is shared. Readings that name no one gauge all stand under one cause on purpose: they may well have been taken
    /// with the same one, and then their scatter is one estimate, used as often as there are readings. A cause of its own for
    /// each would pool its degrees of freedom as if each had been found anew, which makes k too small.
    /// </summary>
    internal static SharedError None => InAll(StandardUncertainty.Zero);

    /// <summary>The same error in all of a set of readings.</summary>
    internal static SharedError InAll(StandardUncertainty uncertainty) => new(uncertainty, NoGauge);
}
