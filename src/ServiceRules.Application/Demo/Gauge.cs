using ServiceRules.Domain;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;

namespace ServiceRules.Application.Demo;

/// <summary>An instrument in somebody's hand: what it shows of a true length.</summary>
/// <param name="Instrument">As the record names it.</param>
/// <param name="Unit">In which it shows.</param>
/// <param name="Step">Its smallest step, in that unit; its digits are those that it shows.</param>
/// <param name="Bias">By how much it reads high, millimetres.</param>
/// <param name="Spread">How far two readings of one thing may differ from the truth, millimetres.</param>
internal sealed record Gauge(
    Instrument Instrument,
    LengthUnit Unit,
    decimal Step,
    decimal Bias,
    decimal Spread
)
{
    private const decimal MillimetresPerInch = 25.4m;

    public Id<Instrument> Id => Instrument.Id;

    /// <summary>Reads a true length in millimetres.</summary>
    public PrintedLength Read(decimal truth, Chance chance) => Shown(truth + Bias + chance.Noise(Spread));

    /// <summary>A length in millimetres, as this gauge would show it.</summary>
    public PrintedLength Shown(decimal millimetres)
    {
        var figure = Unit is LengthUnit.Inch ? millimetres / MillimetresPerInch : millimetres;
        return PrintedLength.Of(decimal.Round(figure / Step) * Step, Unit).OrThrow();
    }
}
