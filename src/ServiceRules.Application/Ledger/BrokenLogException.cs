namespace ServiceRules.Application.Ledger;

/// <summary>The store of an open log became another under our hands: a defect or an attack, never an expected failure.</summary>
public sealed class BrokenLogException(LedgerFault fault) : Exception(fault.ToString())
{
    public LedgerFault Fault { get; } = fault;
}
