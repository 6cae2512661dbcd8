using ServiceRules.Application.Reports;
using ServiceRules.Domain.Records;
using ServiceRules.Evidence;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.Filed;

/// <summary>
/// Looks through files one at a time and keeps of each record only what is asked for. A record met twice counts once;
/// an open job and the same job further on are one; two different records that both claim to be the same finished job
/// are neither.
/// </summary>
/// <param name="reports">Reads signed reports.</param>
/// <param name="inForce">The rules whose limit sheets records name, unless they bring their own.</param>
/// <param name="site">The site of records that do not say theirs.</param>
public sealed class RecordGathering(IReportReader reports, RuleBook inForce, string site)
{
    /// <summary>Reads everything behind some paths.</summary>
    /// <param name="paths">Files and folders.</param>
    /// <param name="keep">What to keep of a record; null: nothing.</param>
    public Gathered<T> Gather<T>(IEnumerable<string> paths, Func<FiledRecord, T?> keep)
        where T : class
    {
        ArgumentNullException.ThrowIfNull(paths);
        ArgumentNullException.ThrowIfNull(keep);
        List<FiledProblem> problems = [];
        Dictionary<(string Site, string Id), Met<T>> met = [];
        Dictionary<(string Site, string Id), List<string>> disputed = [];
        var (repeated, superseded) = (0, 0);
        FileReading reading = new(reports, inForce);
        foreach (var file in FileListing.Of(paths, problems))
        {
            if (!reading.TryRead(file, out var filed, out var problem))
            {
                problems.Add(problem);
                continue;
            }

            var key = (filed.Context?.Site ?? site, filed.Record.Id.Text);
            if (!met.TryGetValue(key, out var known))
            {
                met.Add(key, Met<T>.First(filed, keep));
                continue;
            }

            switch (known.Compare(filed))
            {
                case Meeting.Same:
                    repeated++;
                    met[key] = filed.Context is null ? known : known.Replaced(filed, keep);
                    break;
                case Meeting.Later:
                    superseded++;
                    met[key] = known.Replaced(filed, keep);
                    break;
                case Meeting.Earlier:
                    superseded++;
                    break;
                default:
                    if (!disputed.TryGetValue(key, out var files))
                    {
                        disputed[key] = files = [known.File];
                        problems.Add(Conflict(known.Id, known.File, filed.File));
                    }

                    files.Add(filed.File);
                    problems.Add(Conflict(known.Id, filed.File, known.File));
                    met[key] = known with { IsDisputed = true };
                    break;
            }
        }

        var sure = met.Values.Where(one => !one.IsDisputed).ToList();
        return new(
            [
                .. sure.Where(one => one.Kept is not null)
                    .OrderBy(one => one.Day)
                    .ThenBy(one => one.Id, StringComparer.Ordinal)
                    .Select(one => one.Kept!),
            ],
            new([.. problems], sure.Count, repeated, superseded)
            {
                Contradicting =
                [
                    .. disputed
                        .OrderBy(one => one.Key.Id, StringComparer.Ordinal)
                        .Select(one => new ContradictingFiles(one.Key.Id, [.. one.Value])),
                ],
            }
        );
    }

    private static FiledProblem Conflict(string id, string file, string other) =>
        new(
            file,
            [
                $"`{id}` stands with other content in {other}; neither is used; accepted: one record for one identity, or an open job and the same job further on",
            ]
        );

    private enum Meeting
    {
        Same,
        Earlier,
        Later,
        Conflict,
    }

    private sealed record Met<T>(
        string File,
        string Id,
        DateOnly Day,
        ContentHash Hash,
        bool IsOpen,
        int Lines,
        bool IsDisputed,
        T? Kept
    )
        where T : class
    {
        public static Met<T> First(FiledRecord filed, Func<FiledRecord, T?> keep) =>
            new(
                filed.File,
                filed.Record.Id.Text,
                filed.Record.Date,
                filed.Document.Hash,
                filed.Record.SignOff is null,
                LinesOf(filed.Record),
                false,
                keep(filed)
            );

        public Met<T> Replaced(FiledRecord filed, Func<FiledRecord, T?> keep) =>
            First(filed, keep) with
            {
                IsDisputed = IsDisputed,
            };

        /// <summary>How a further file of the same record stands to this one.</summary>
        public Meeting Compare(FiledRecord filed)
        {
            if (filed.Document.Hash == Hash)
            {
                return Meeting.Same;
            }

            var isOpen = filed.Record.SignOff is null;
            var lines = LinesOf(filed.Record);
            return (IsOpen, isOpen) switch
            {
                (true, false) => Meeting.Later,
                (false, true) => Meeting.Earlier,
                (true, true) when lines > Lines => Meeting.Later,
                (true, true) when lines < Lines => Meeting.Earlier,
                _ => Meeting.Conflict,
            };
        }

        private static int LinesOf(ServiceRecord record) =>
            record.Timeline.Length + record.Units.Sum(unit => unit.Entries.Length);
    }
}
