namespace ServiceRules.Application.Ledger;

/// <summary>Why something may not be filed.</summary>
/// <param name="What">What is wrong, with the value found.</param>
/// <param name="Accepted">What would be accepted.</param>
public sealed record FilingRefusal(string What, string Accepted)
{
    public override string ToString() => $"{What}; accepted: {Accepted}";
}
