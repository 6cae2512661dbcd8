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

    private const int IdBytes = 16;

    /// <summary>A name that nothing else has.</summary>
    public static string Drawn() => Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(IdBytes));

    /// <summary>Null: the caller has too many.</summary>
    public ExportJob? Ask(ExportRequest request, Caller caller)
    {
        var now = clock.GetUtcNow();
        var job = store.Ask(
            new ExportJob(
                Drawn(),
                caller.Name,
                Encoding.UTF8.GetString(ExportRequestFormat.Current.Write(request)),
                now,
                now + KeptFor
            )
            {
                Site = caller.Site,
            },
            MostOfOne
        );
        bell.Ring();
        return job;
    }

    /// <summary>Null where there is none, it is of somebody else or of another site than the caller sees now, or its time is over.</summary>
    public ExportJob? Find(string id, Caller caller) =>
        store.Find(id) is { } job
        && job.By == caller.Name
        && job.Site == caller.Site
        && job.ExpiresAt > clock.GetUtcNow()
            ? job
            : null;

    /// <summary>The file of one that is done.</summary>
    public Stream Open(ExportJob job) => new PartsReader(store, job.Id);

    public static ExportRequest RequestOf(ExportJob job) =>
        ExportRequestFormat.Current.Read(Encoding.UTF8.GetBytes(job.Request)).TryGet(out var request, out _)
            ? request
            : throw new InvalidOperationException("what was asked for cannot be read any more");
}
