using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;
using ServiceRules.Application.Accounts;
using ServiceRules.Application.Keeping;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Working;

namespace ServiceRules.Host.Keeping;

/// <summary>Removes once a day what is over and not held.</summary>
internal sealed partial class RetentionWork(
    OpenLedger ledger,
    TimeProvider clock,
    IHostApplicationLifetime life,
    ILogger<RetentionWork> log
) : IWork
{
    public const string Daily = "daily";

    private static readonly TimeSpan Pause = TimeSpan.FromHours(24);

    public string Kind => "retention";

    public Task<TimeSpan?> DoAsync(string what, CancellationToken stop)
    {
        using var ending = CancellationTokenSource.CreateLinkedTokenSource(stop, life.ApplicationStopping);
        var run = new RunRetention(ledger).Run(
            DateOnly.FromDateTime(clock.GetUtcNow().UtcDateTime),
            AccountAct.Service,
            false,
            ending.Token
        );
        Ran(log, run.Contents, run.Due.Length, run.Held.Length);
        return Task.FromResult<TimeSpan?>(Pause);
    }

    [LoggerMessage(
        Level = LogLevel.Information,
        Message = "retention removed {Contents} contents of {Records} records, {Held} are held"
    )]
    private static partial void Ran(ILogger logger, int contents, int records, int held);
}
