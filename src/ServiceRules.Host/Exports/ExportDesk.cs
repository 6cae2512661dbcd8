using System.Security.Cryptography;
using System.Text;
using ServiceRules.Application.Exporting;
using ServiceRules.Formats.Exports;
using ServiceRules.Host.Accounts;
using ServiceRules.Host.Notices;

namespace ServiceRules.Host.Exports;

/// <summary>Where lists are asked for as files, and handed out to whoever asked.</summary>
internal sealed class ExportDesk(IExportStore store, TimeProvider clock, NoticeBell bell)
{
    /// <summary>How many a caller may have at a time.</summary>
    public const int MostOfOne = 10;

    private static readonly TimeSpan KeptFor = TimeSpan.FromDays(1);

    // Longer than two presses of a button are apart, and shorter than anybody waits for other rows.
    private static readonly TimeSpan Moment = TimeSpan.FromSeconds(10);

    private const int IdBytes = 16;

    /// <summary>A name that nothing else has.</summary>
    public static string Drawn() => Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(IdBytes));

    /// <summary>Null: the caller has too many.</summary>
    public ExportJob? Ask(ExportRequest request, Caller caller)
    {
        var now = clock.GetUtcNow();
        var job = store.Ask(
            new ExportJob(Drawn(), caller.Name, Written(request), now, now + KeptFor) { Site = caller.Site },
            MostOfOne
        );
        bell.Ring();
        return job;
    }

    /// <summary>The same, of a form: pressed twice it asks once, also where the first one is done already.</summary>
    public ExportJob? AskOnce(ExportRequest request, Caller caller)
    {
        var since = clock.GetUtcNow() - Moment;
        var asked = Written(request);
        return Of(caller)
                .FirstOrDefault(job =>
                    job.Request == asked && job.State is not ExportState.Failed && job.AskedAt > since
                )
            ?? Ask(request, caller);
    }

    /// <summary>Those that a caller gets, the newest first.</summary>
    public IReadOnlyList<ExportJob> Of(Caller caller) =>
        [.. store.Of(caller.Name).Where(job => IsOf(job, caller))];

    /// <summary>Null where there is none, it is of somebody else or of another site than the caller sees now, or its time is over.</summary>
    public ExportJob? Find(string id, Caller caller) =>
        store.Find(id) is { } job && IsOf(job, caller) ? job : null;

    /// <summary>The file of one that is done.</summary>
    public Stream Open(ExportJob job) => new PartsReader(store, job.Id);

    public static ExportRequest RequestOf(ExportJob job) =>
        ExportRequestFormat.Current.Read(Encoding.UTF8.GetBytes(job.Request)).TryGet(out var request, out _)
            ? request
            : throw new InvalidOperationException("what was asked for cannot be read any more");

    private static string Written(ExportRequest request) =>
        Encoding.UTF8.GetString(ExportRequestFormat.Current.Write(request));

    private bool IsOf(ExportJob job, Caller caller) =>
        job.By == caller.Name && job.Site == caller.Site && job.ExpiresAt > clock.GetUtcNow();
}
