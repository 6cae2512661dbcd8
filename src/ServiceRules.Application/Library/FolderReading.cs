using System.Collections.Immutable;
using System.Globalization;
using ServiceRules.Application.Filed;
using ServiceRules.Domain.Site;
using ServiceRules.Formats.Cases;
using ServiceRules.Formats.Json;
using ServiceRules.Formats.Json.Source;
using ServiceRules.Formats.Packs;
using ServiceRules.Formats.Registers;
using ServiceRules.Formats.Sheets;
using ServiceRules.Rules.Checking;
using ServiceRules.Rules.Diagnostics;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.Library;

/// <summary>Reads the files of a folder of rules, one kind after another, and keeps where each part stands.</summary>
internal sealed class FolderReading(ILookup<RuleFileKind, RuleFile> files, FolderRemarks remarks)
{
    public ImmutableArray<PlacedPack> Packs()
    {
        var heads = All(RuleFileKind.PackHead, RulePackFormat.Head);
        var rules = All(RuleFileKind.Rules, RulePackFormat.Rules);
        var citations = All(RuleFileKind.Citations, RulePackFormat.Citations);
        WithoutPack(rules.Select(one => one.File), "rules");
        WithoutPack(citations.Select(one => one.File), "citations");

        return
        [
            .. heads.Select(head =>
            {
                ImmutableArray<Placed<Rule>> own =
                [
                    .. rules
                        .Where(one => one.File.Folder == head.File.Folder)
                        .SelectMany(one =>
                            one.Value.Rules.Select((rule, index) => Item(rule, one.File, "/rules", index))
                        ),
                ];
                ImmutableArray<Placed<Citation>> cited =
                [
                    .. citations
                        .Where(one => one.File.Folder == head.File.Folder)
                        .SelectMany(one =>
                            one.Value.Citations.Select(
                                (citation, index) => Item(citation, one.File, "/citations", index)
                            )
                        ),
                ];
                return new PlacedPack(
                    head.Value with
                    {
                        Rules = [.. own.Select(placed => placed.Value)],
                        Citations = [.. cited.Select(placed => placed.Value)],
                    },
                    head.File.Name,
                    own
                )
                {
                    Citations = cited,
                };
            }),
        ];
    }

    public ImmutableArray<Placed<LimitSheet>> Sheets() => Whole(RuleFileKind.Sheet, LimitSheetFormat.Current);

    public ImmutableArray<Placed<SettingOrder>> Orders() =>
        Whole(RuleFileKind.SettingOrder, SettingOrderFormat.Current);

    public ImmutableArray<Placed<Procedure>> Procedures() =>
        Whole(RuleFileKind.Procedure, SiteFormat.Procedure);

    public Placed<SiteFile>? Site()
    {
        var sites = Whole(RuleFileKind.Site, SiteFormat.Site);
        foreach (var second in sites.Skip(1))
        {
            remarks.Add(
                DiagnosticCode.IdentityTwice,
                second.File,
                $"there is another site, `{sites[0].Value.Name}`, in {sites[0].File}",
                "one site in a folder of rules"
            );
        }

        return sites.IsEmpty ? null : sites[0];
    }

    public ImmutableArray<Placed<RegistersFile>> Registers() =>
        Whole(RuleFileKind.Registers, SiteFormat.Registers);

    public ImmutableArray<PlacedCase> Cases() =>
        [
            .. All(RuleFileKind.Cases, RuleCasesFormat.Current)
                .SelectMany(one =>
                    one.Value.Cases.Select(
                        (promise, index) =>
                        {
                            string pointer = string.Create(CultureInfo.InvariantCulture, $"/cases/{index}");
                            SourcePosition at = one.Source.PositionOf(JsonPointer.Of(pointer));
                            string fixtures = one.File.Folder + "/" + one.Value.Fixtures;
                            return new PlacedCase(
                                promise,
                                one.File.Name,
                                pointer,
                                at.Line,
                                at.Column,
                                fixtures
                            );
                        }
                    )
                ),
        ];

    public void Strangers()
    {
        foreach (RuleFile file in files[RuleFileKind.Unknown])
        {
            remarks.Add(
                DiagnosticCode.FileNotRead,
                file.Name,
                "nothing reads a file of this name here",
                RuleFileNames.Accepted
            );
        }
    }

    /// <summary>A case starts from a record and a context that are there; whether they may go out is for the test to say.</summary>
    public void WithoutFixture(ImmutableArray<PlacedCase> cases)
    {
        var shelf = files[RuleFileKind.FixtureRecord]
            .Concat(files[RuleFileKind.FixtureContext])
            .Select(file => file.Name)
            .ToHashSet(StringComparer.Ordinal);
        remarks.Add(
            from promise in cases
            let missing = new[] { ".record.json", ".context.json" }
                .Select(ending => $"{promise.Fixtures}/{promise.Case.From}{ending}")
                .FirstOrDefault(name => !shelf.Contains(name))
            where missing is not null
            select new Diagnostic
            {
                Code = DiagnosticCode.CaseCannotBeBuilt,
                Level = DiagnosticLevel.Error,
                File = promise.File,
                Pointer = promise.Pointer + "/from",
                What = $"there is no fixture `{missing}`",
                Right = "the name of a fixture that has both its record and its context",
            }
        );
    }

    public static Placed<T> Item<T>(T value, RuleFile file, string list, int index)
        where T : notnull =>
        new(value, file.Name, string.Create(CultureInfo.InvariantCulture, $"{list}/{index}"));

    private void WithoutPack(IEnumerable<RuleFile> parts, string what)
    {
        foreach (
            RuleFile file in parts.Where(part =>
                !files[RuleFileKind.PackHead].Any(head => head.Folder == part.Folder)
            )
        )
        {
            remarks.Add(
                DiagnosticCode.FileMissing,
                file.Name,
                $"these {what} belong to no pack: there is no `pack.json` beside them",
                "a `pack.json` in the same folder"
            );
        }
    }

    private ImmutableArray<Placed<T>> Whole<T>(RuleFileKind kind, DocumentFormat<T> format)
        where T : notnull =>
        [.. All(kind, format).Select(one => new Placed<T>(one.Value, one.File.Name, ""))];

    private List<(RuleFile File, T Value, SourceDocument Source)> All<T>(
        RuleFileKind kind,
        DocumentFormat<T> format
    )
        where T : notnull
    {
        List<(RuleFile, T, SourceDocument)> read = [];
        foreach (RuleFile file in files[kind])
        {
            try
            {
                // A pipe or a device is never opened: it would be waited for.
                if (!RegularFile.Is(file.Path))
                {
                    throw new IOException();
                }

                using FileStream stream = File.OpenRead(file.Path);
                ReadOutcome<T> outcome = format.Read(stream);
                if (outcome.TryGet(out T? value, out SourceDocument? source, out ProblemReport problems))
                {
                    remarks.Keep(file.Name, source);
                    read.Add((file, value, source));
                }
                else
                {
                    remarks.Add(file.Name, problems);
                }
            }
            catch (Exception wrong) when (wrong is IOException or UnauthorizedAccessException)
            {
                remarks.Add(
                    DiagnosticCode.CannotBeRead,
                    file.Name,
                    "this file cannot be read",
                    "a file that may be read"
                );
            }
        }

        return read;
    }
}
