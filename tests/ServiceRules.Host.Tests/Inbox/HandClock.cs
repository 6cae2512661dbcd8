namespace ServiceRules.Host.Tests.Inbox;

/// <summary>A clock that goes on by hand.</summary>
internal sealed class HandClock : TimeProvider
{
    private long ticks;

    public override long TimestampFrequency => TimeSpan.TicksPerSecond;

    public override long GetTimestamp() => ticks;

    public override DateTimeOffset GetUtcNow() =>
        new DateTimeOffset(2026, 4, 14, 6, 0, 0, TimeSpan.Zero).AddTicks(ticks);

    public void Pass(TimeSpan time) => ticks += time.Ticks;
}
