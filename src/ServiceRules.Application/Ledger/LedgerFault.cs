namespace ServiceRules.Application.Ledger;

/// <summary>One thing that is wrong with a log.</summary>
/// <param name="Code">Stable kebab-case word, one of <see cref="LedgerFaultCode"/>.</param>
/// <param name="Where">The entry, content, checkpoint or file.</param>
/// <param name="Told">What is wrong, with what was found and what was expected.</param>
public sealed record LedgerFault(string Code, string Where, string Told)
{
    public override string ToString() => $"{Where}: {Told}";
}
