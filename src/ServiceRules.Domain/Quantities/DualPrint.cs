namespace ServiceRules.Domain.Quantities;

/// <summary>
/// A length as a manual prints it: a governing figure and, where the manual gives one, an alternate in the
/// other system of units. The alternate is a print of its own, not a conversion; a reading is held against
/// the print of its own system.
/// </summary>
public sealed record DualPrint
{
    private const decimal NoticeFraction = 0.05m;

    private DualPrint(PrintedLength governing, PrintedLength? alternate)
    {
        Governing = governing;
        Alternate = alternate;
    }

    /// <summary>The figure that governs where the two differ.</summary>
    public PrintedLength Governing { get; }

    /// <summary>The figure printed beside it in the other system, or none.</summary>
    public PrintedLength? Alternate { get; }

    /// <summary>
    /// Whether both figures can be roundings of one length. Rounding intervals are closed: figures whose
    /// intervals only touch still agree.
    /// </summary>
    public PrintAgreement Agreement
    {
        get
        {
            if (Alternate is null)
            {
                return PrintAgreement.Single;
            }

            Length apart = (Alternate.Value - Governing.Value).Abs;
            if (apart > Governing.RoundingHalfWidth + Alternate.RoundingHalfWidth)
            {
                return PrintAgreement.Disagrees;
            }

            return apart > Governing.Value.Abs * NoticeFraction
                ? PrintAgreement.AgreesWithNotice
                : PrintAgreement.Agrees;
        }
    }

    /// <summary>A print with one figure only.</summary>
    /// <param name="governing">The figure.</param>
    public static DualPrint Of(PrintedLength governing)
    {
        ArgumentNullException.ThrowIfNull(governing);
        return new(governing, null);
    }

    /// <summary>
    /// A print with two figures. They must be in different systems; whether they agree is told by
    /// <see cref="Agreement"/>, so that a wrong pair can be shown to the person who transcribed it.
    /// </summary>
    /// <param name="governing">The figure that governs.</param>
    /// <param name="alternate">The figure printed beside it.</param>
    public static Parsed<DualPrint> Of(PrintedLength governing, PrintedLength alternate)
    {
        ArgumentNullException.ThrowIfNull(governing);
        ArgumentNullException.ThrowIfNull(alternate);
        return governing.System == alternate.System
            ? Parsed<DualPrint>.Refused(
                ParseFailure.Because(
                    $"is in the same system of units as the governing figure `{governing}`",
                    alternate.ToString(),
                    governing.System is UnitSystem.Inch ? "a figure in mm or µm" : "a figure in in or thou"
                )
            )
            : Parsed<DualPrint>.Of(new(governing, alternate));
    }

    /// <summary>The length printed in a system of units; the governing one when that system is not printed.</summary>
    /// <param name="system">The system of the reading that is to be held against this print.</param>
    public Length In(UnitSystem system) =>
        Alternate is not null && Alternate.System == system ? Alternate.Value : Governing.Value;

    /// <summary>Both figures as a manual prints them: <c>0.001 in (0.025 mm)</c>.</summary>
    public override string ToString() => Alternate is null ? $"{Governing}" : $"{Governing} ({Alternate})";
}
