using System.Globalization;
using Microsoft.Extensions.Hosting;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Working;

namespace ServiceRules.Host.Filing;

/// <summary>Makes the report of a record before anybody asks for it.</summary>
internal sealed class ReportWork(ReportDesks desks, OpenLedger ledger, IHostApplicationLifetime life) : IWork
{
    public const string Name = "report";

    public string Kind => Name;

    /// <summary>Whoever is told of holds and whoever wants a file does not wait for reports.</summary>
    public string SharesWith(string what) => Name;

    /// <param name="what">Place of an assessment in the log.</param>
    /// <param name="stop">When to break off.</param>
    public async Task<TimeSpan?> DoAsync(string what, CancellationToken stop)
    {
        using var ending = CancellationTokenSource.CreateLinkedTokenSource(stop, life.ApplicationStopping);
        if (
            ledger.Log.Entry(long.Parse(what, CultureInfo.InvariantCulture)) is { } stored
            && EntryReading.TryRead(stored, out var filed, out _)
        )
        {
            // That of the newest version, and none where it stands already. Why there can be none is told to whoever asks.
            _ = await desks.OfRecord(filed.Entry.Subject).OfAsync(filed.Entry.Subject, ending.Token);
        }

        return null;
    }
}
