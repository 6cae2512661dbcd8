using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Measurement;

/// <summary>
/// One line of an uncertainty budget: the standard uncertainty u(x) of one input and the sensitivity c with which
/// it enters the result, so that the line contributes c·u(x) (JCGM 100:2008, 5.1.3).
/// </summary>
public sealed record UncertaintyContribution
{
    internal UncertaintyContribution(
        UncertaintySource source,
        double input,
        DegreesOfFreedom degreesOfFreedom
    )
    {
        Source = source;
        Input = input;
        DegreesOfFreedom = degreesOfFreedom;
    }

    /// <summary>Where it comes from.</summary>
    public UncertaintySource Source { get; }

    /// <summary>What it adds to the result, rounded up to the quantum for showing; the sum uses the unrounded value.</summary>
    public StandardUncertainty Uncertainty => StandardUncertainty.FromComputed(Math.Abs(Millimetres));

    /// <summary>How well that uncertainty is known.</summary>
    public DegreesOfFreedom DegreesOfFreedom { get; }

    /// <summary>
    /// The common cause, where several lines are one and the same error: two readings of one gauge share its calibration.
    /// Lines of one cause add with their signs before anything is squared; none: an error of its own.
    /// </summary>
    public string? Cause { get; private init; }

    /// <summary>c, with its sign.</summary>
    internal decimal Sensitivity { get; private init; } = 1m;

    /// <summary>u(x).</summary>
    internal double Input { get; }

    /// <summary>c·u(x), with the sign of c.</summary>
    internal double Millimetres => (double)Sensitivity * Input;

    /// <summary>A gauge that shows steps of q: u = q/√12 (JCGM 100:2008, F.2.2.1).</summary>
    /// <param name="step">The smallest step shown, zero or more.</param>
    public static UncertaintyContribution Resolution(Length step) =>
        Rectangular(UncertaintySource.Resolution, step, Math.Sqrt(12));

    /// <summary>Anywhere within ±a with equal chance: u = a/√3 (JCGM 100:2008, 4.3.7).</summary>
    /// <param name="source">What is only known to within the half width.</param>
    /// <param name="halfWidth">a, zero or more.</param>
    public static UncertaintyContribution WithinHalfWidth(UncertaintySource source, Length halfWidth) =>
        Rectangular(source, halfWidth, Math.Sqrt(3));

    /// <summary>From a certificate that states U and k: u = U/k (JCGM 100:2008, 4.3.3).</summary>
    /// <param name="expanded">U, zero or more.</param>
    /// <param name="coverageFactor">k, above zero.</param>
    /// <param name="degreesOfFreedom">Behind u, where the certificate states them.</param>
    public static UncertaintyContribution Calibration(
        Length expanded,
        decimal coverageFactor,
        DegreesOfFreedom degreesOfFreedom = default
    )
    {
        ArgumentOutOfRangeException.ThrowIfNegative(expanded.Millimetres, nameof(expanded));
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(coverageFactor);
        return new(
            UncertaintySource.Calibration,
            (double)(expanded.Millimetres / coverageFactor),
            degreesOfFreedom
        );
    }

    /// <summary>
    /// A gauge without a calibration: its scale within two of the steps it shows, u = 2q/√3. A zero check tells nothing of
    /// the scale, so that without this a gauge would prove more uncalibrated than calibrated; hand gauges are seldom
    /// certified worse than this (common practice, no source).
    /// </summary>
    /// <param name="step">q, the smallest step shown, zero or more.</param>
    public static UncertaintyContribution NotCalibrated(Length step) =>
        WithinHalfWidth(UncertaintySource.Scale, step * 2);

    /// <summary>
    /// A zero whose error was found by a check on a setting piece and is taken out of the readings: what is left of it, within half of what two checks are
    /// apart and within half a step of the gauge the error was read in, u² = a²/3 + q²/12 (JCGM 100:2008, 4.3.7, F.2.2.1); at most
    /// what is taken of a zero that nobody checked.
    /// </summary>
    /// <param name="halfApart">a, zero or more.</param>
    /// <param name="stepRead">q, zero or more; zero: the zero was set, and no error was read.</param>
    /// <param name="mostAllowed">The most that a zero may be off, zero or more.</param>
    public static UncertaintyContribution ZeroCheck(Length halfApart, Length stepRead, Length mostAllowed)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(halfApart.Millimetres, nameof(halfApart));
        ArgumentOutOfRangeException.ThrowIfNegative(stepRead.Millimetres, nameof(stepRead));
        ArgumentOutOfRangeException.ThrowIfNegative(mostAllowed.Millimetres, nameof(mostAllowed));
        var apart = (double)halfApart.Millimetres / Math.Sqrt(3);
        var read = (double)stepRead.Millimetres / Math.Sqrt(12);
        var known = Math.Sqrt((apart * apart) + (read * read));
        var most = (double)mostAllowed.Millimetres / Math.Sqrt(3);
        return new(UncertaintySource.ZeroCheck, Math.Min(known, most), default);
    }

    /// <summary>
    /// A zero that a check found further off than a fit one may be: all of the error as a half width, though it is taken out of the
    /// readings, since nobody knows what such a gauge does.
    /// </summary>
    /// <param name="largestError">The largest error that a check found, zero or more.</param>
    public static UncertaintyContribution ZeroFarOff(Length largestError) =>
        WithinHalfWidth(UncertaintySource.ZeroCheck, largestError);

    /// <summary>
    /// A zero that nobody checked: the most that a zero may be off and still count as fit, as a half width (common practice, no
    /// source). A check that came out fit never counts for more, so that leaving it out makes no reading better.
    /// </summary>
    /// <param name="mostAllowed">The most that a zero may be off, zero or more.</param>
    public static UncertaintyContribution ZeroUnchecked(Length mostAllowed) =>
        WithinHalfWidth(UncertaintySource.ZeroUnchecked, mostAllowed);

    /// <summary>
    /// The mean of n readings by a gauge of which nobody states how it repeats: half of the step that it shows as the standard
    /// deviation of one reading (common practice, no source), u = q/(2√n).
    /// </summary>
    /// <param name="step">q, the smallest step shown, zero or more.</param>
    /// <param name="readings">n, at least 1.</param>
    public static UncertaintyContribution RepeatabilityUnstated(Length step, int readings)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(step.Millimetres, nameof(step));
        ArgumentOutOfRangeException.ThrowIfLessThan(readings, 1);
        var u = (double)step.Millimetres / (2 * Math.Sqrt(readings));
        return new(UncertaintySource.RepeatabilityUnstated, u, DegreesOfFreedom.Infinite);
    }

    /// <summary>
    /// The mean of n readings by a method whose standard deviation is s: u = s/√n (JCGM 100:2008, 4.2.3),
    /// known with the degrees of freedom of s.
    /// </summary>
    /// <param name="standardDeviation">s of a single reading, zero or more; pooled where many jobs were used.</param>
    /// <param name="degreesOfFreedom">Degrees of freedom behind s.</param>
    /// <param name="readings">n, at least 1.</param>
    public static UncertaintyContribution Repeatability(
        Length standardDeviation,
        DegreesOfFreedom degreesOfFreedom,
        int readings
    )
    {
        ArgumentOutOfRangeException.ThrowIfNegative(standardDeviation.Millimetres, nameof(standardDeviation));
        ArgumentOutOfRangeException.ThrowIfLessThan(readings, 1);
        var u = (double)standardDeviation.Millimetres / Math.Sqrt(readings);
        return new(UncertaintySource.Repeatability, u, degreesOfFreedom);
    }

    /// <summary>The same line entering with another sensitivity.</summary>
    internal UncertaintyContribution Times(decimal sensitivity) => this with { Sensitivity = sensitivity };

    /// <summary>The same line, as one and the same error wherever this cause is named.</summary>
    internal UncertaintyContribution CausedBy(string cause) => this with { Cause = cause };

    private static UncertaintyContribution Rectangular(UncertaintySource source, Length width, double divisor)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(width.Millimetres, nameof(width));
        return new(source, (double)width.Millimetres / divisor, default);
    }
}
