namespace ServiceRules.Application.Ledger;

/// <summary>Who corrects something that was filed, and why.</summary>
public sealed record Correction(string By, string Reason);
