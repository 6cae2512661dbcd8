namespace ServiceRules.Host.Tests.Accounts;

/// <summary>A clock that goes as all do, and can be put ahead.</summary>
internal sealed class MovedClock : TimeProvider
{
    public TimeSpan Ahead { get; set; }

    public override DateTimeOffset GetUtcNow() => base.GetUtcNow() + Ahead;
}
