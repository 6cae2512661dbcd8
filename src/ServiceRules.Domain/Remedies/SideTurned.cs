namespace ServiceRules.Domain.Remedies;

/// <summary>Single steps already turned on one side: those that opened and those that closed, apart.</summary>
internal readonly record struct SideTurned(int Opened, int Closed)
{
    /// <summary>The same and one step more.</summary>
    public SideTurned Then(int move) => move > 0 ? new(Opened + 1, Closed) : new(Opened, Closed + 1);
}
