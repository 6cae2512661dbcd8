using Microsoft.Extensions.Logging;
using ServiceRules.Application.Working;
using ServiceRules.Host.Working;

namespace ServiceRules.Host.Tests.Working;

/// <summary>Work that breaks off is done again by the queue, which tells nobody.</summary>
public sealed class LoggedWorkTests
{
    [Fact]
    public async Task Work_ThatBreaksOff_IsToldAndStillBreaksOff()
    {
        var told = new Told();
        var work = new LoggedWork(new Broken(new InvalidOperationException("no room")), told);

        _ = await Assert.ThrowsAsync<InvalidOperationException>(() =>
            work.DoAsync("17", CancellationToken.None)
        );

        var (level, line) = Assert.Single(told.Lines);
        Assert.Equal((LogLevel.Error, "report 17 broke off and is tried again"), (level, line));
        Assert.Equal(("report", "of 17"), (work.Kind, work.SharesWith("17")));
    }

    [Fact]
    public async Task Work_ThatEndsWithTheService_IsNoDefect()
    {
        var told = new Told();
        var work = new LoggedWork(new Broken(new OperationCanceledException()), told);

        _ = await Assert.ThrowsAsync<OperationCanceledException>(() =>
            work.DoAsync("17", CancellationToken.None)
        );

        Assert.Empty(told.Lines);
    }

    private sealed class Broken(Exception why) : IWork
    {
        public string Kind => "report";

        public string? SharesWith(string what) => "of " + what;

        public Task<TimeSpan?> DoAsync(string what, CancellationToken stop) =>
            Task.FromException<TimeSpan?>(why);
    }

    private sealed class Told : ILogger<LoggedWork>
    {
        public List<(LogLevel Level, string Line)> Lines { get; } = [];

        public IDisposable? BeginScope<TState>(TState state)
            where TState : notnull => null;

        public bool IsEnabled(LogLevel logLevel) => true;

        public void Log<TState>(
            LogLevel logLevel,
            EventId eventId,
            TState state,
            Exception? exception,
            Func<TState, Exception?, string> formatter
        ) => Lines.Add((logLevel, formatter(state, exception)));
    }
}
