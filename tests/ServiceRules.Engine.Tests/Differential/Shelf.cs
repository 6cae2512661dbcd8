using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Formats.Json;
using ServiceRules.Formats.Packs;
using ServiceRules.Formats.Records;
using ServiceRules.Formats.Registers;
using ServiceRules.Formats.Sheets;
using ServiceRules.Rules.Model;
using ServiceRules.TestKit;

namespace ServiceRules.Engine.Tests.Differential;

/// <summary>The shipped rules, sheets and fixtures.</summary>
internal static class Shelf
{
    private static readonly string Base = ReferenceFiles.InRepository("rules", "base");

    public static ImmutableArray<Rule> Rules { get; } =
    [
        .. Directory
            .GetFiles(Base, "*.rules.json")
            .Order(StringComparer.Ordinal)
            .SelectMany(file => Read(RulePackFormat.Rules, file).Rules),
    ];

    /// <summary>The shipped rules as they are, and with every measured value decided another way.</summary>
    public static ImmutableArray<ImmutableArray<Rule>> Ways { get; } =
    [
        Rules,
        [.. Rules.Select(rule => rule with { Decision = RuleDecision.Probability })],
        [
            .. Rules.Select(
                (rule, index) =>
                    rule with
                    {
                        Decision = index % 2 == 0 ? RuleDecision.Simple : RuleDecision.GuardedOneSided,
                    }
            ),
        ],
    ];

    public static ImmutableArray<LimitSheet> Sheets { get; } =
    [
        .. Directory
            .GetFiles(ReferenceFiles.InRepository("rules", "sheets"), "*.sheet.json")
            .Order(StringComparer.Ordinal)
            .Select(file => Read(LimitSheetFormat.Current, file)),
    ];

    public static ImmutableArray<(ServiceRecord Record, AssessmentContext Context)> Fixtures { get; } =
    [
        .. Directory
            .GetFiles(Path.Combine(Base, "fixtures"), "*.record.json")
            .Order(StringComparer.Ordinal)
            .Select(file =>
                (
                    Read(RecordFormat.Current, file),
                    Read(
                        ContextFormat.Current,
                        file.Replace(".record.", ".context.", StringComparison.Ordinal)
                    )
                )
            ),
    ];

    public static RuleBook Book(IEnumerable<Rule> rules) => new([Jobs.Pack([.. rules])], Sheets);

    private static T Read<T>(DocumentFormat<T> format, string file)
        where T : notnull =>
        format.Read(File.ReadAllBytes(file)).TryGet(out T? value, out var problems)
            ? value
            : throw new InvalidDataException($"{file}: {problems}");
}
