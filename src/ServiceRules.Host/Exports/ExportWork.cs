using System.Text;
using Microsoft.AspNetCore.Http.Json;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;
using Microsoft.Extensions.Options;
using ServiceRules.Application.Exporting;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Working;
using ServiceRules.Formats.Exports;
using ServiceRules.Host.Accounts;

namespace ServiceRules.Host.Exports;

/// <summary>Writes one export, and removes it when its time is over.</summary>
internal sealed partial class ExportWork(
    IExportStore store,
    OpenLedger ledger,
    IOptions<JsonOptions> json,
    PeriodReports reports,
    ServiceSettings settings,
    IHostApplicationLifetime life,
    ILogger<ExportWork> log
) : IWork
{
    public const string Name = "export";

    private static readonly TimeSpan Least = TimeSpan.FromSeconds(1);

    private readonly ExportWriting writing = new(ledger, json);

    public string Kind => Name;

    /// <summary>Long files keep no notice waiting.</summary>
    public string SharesWith(string what) => Name;

    public async Task<TimeSpan?> DoAsync(string what, CancellationToken stop)
    {
        if (store.Find(what) is not { } job)
        {
            return null;
        }

        if (job.ExpiresAt <= settings.Clock.GetUtcNow())
        {
            store.Remove(job.Id);
            return null;
        }

        if (job.State is ExportState.Queued or ExportState.Running && !await WriteAsync(job, stop))
        {
            // The service stops: the next start goes on.
            return Least;
        }

        var left = job.ExpiresAt - settings.Clock.GetUtcNow();
        return left > Least ? left : Least;
    }

    /// <returns>Whether it came to an end; else it is to be begun anew.</returns>
    private async Task<bool> WriteAsync(ExportJob job, CancellationToken stop)
    {
        var turn = ExportDesk.Drawn();
        if (!store.Begin(job.Id, turn))
        {
            return true;
        }

        using var ending = CancellationTokenSource.CreateLinkedTokenSource(stop, life.ApplicationStopping);
        try
        {
            if (
                !ExportRequestFormat
                    .Current.Read(Encoding.UTF8.GetBytes(job.Request))
                    .TryGet(out var request, out var problems)
            )
            {
                throw new ExportBrokenOffException(problems.Told[0].ToString());
            }

            await using var file = new PartsWriter(store, job.Id, turn);
            if (request.What is ExportedList.SafeWork)
            {
                reports.Write(request, job.Id, turn, file, ending.Token);
                return true;
            }

            await writing.WriteAsync(request, GrantedSites.Of(job.Site), file, ending.Token);
            file.End();
            return true;
        }
        catch (OperationCanceledException) when (ending.IsCancellationRequested)
        {
            return false;
        }
        catch (ExportBrokenOffException broken)
        {
            if (broken.Why is { } why)
            {
                _ = store.Fail(job.Id, turn, why);
            }

            return true;
        }
        catch (LedgerStoreException damaged)
            when (damaged.Trouble is StoreTrouble.Damaged or StoreTrouble.Rows)
        {
            Failed(log, job.Id, damaged);
            _ = store.Fail(
                job.Id,
                turn,
                "what is kept of the log is damaged; the log of the service tells more"
            );
            return true;
        }
    }

    [LoggerMessage(Level = LogLevel.Error, Message = "the export {Export} cannot be written")]
    private static partial void Failed(ILogger logger, string export, Exception failure);
}
