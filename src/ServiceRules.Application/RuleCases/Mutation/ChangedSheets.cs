using System.Collections.Immutable;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.RuleCases.Mutation;

/// <summary>The sheets of a folder with one of them changed.</summary>
internal static class ChangedSheets
{
    public static ImmutableArray<LimitSheet> In(RuleBook book, LimitSheet changed) =>
        [.. book.Sheets.Select(sheet => sheet.Id == changed.Id ? changed : sheet)];
}
