using System.Collections.Immutable;
using ServiceRules.Application.Ledger;
using ServiceRules.Domain.Records;
using ServiceRules.Formats.Sheets;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.Comparing;

/// <summary>What two sets of limit sheets say differently: quantity by quantity, and of the kind of unit otherwise.</summary>
internal static class SheetDifference
{
    private const string Quantity = "/quantities/0/";
    private const string Quantities = "/quantities/0";

    public static IEnumerable<FolderChange> Between(RuleBook old, RuleBook now)
    {
        var ids = old
            .Sheets.Concat(now.Sheets)
            .Select(sheet => sheet.Id.Text)
            .Distinct(StringComparer.Ordinal);
        foreach (var id in ids.Order(StringComparer.Ordinal))
        {
            var changes = (old.Sheet(id), now.Sheet(id)) switch
            {
                (null, _) => [new FolderChange(ChangeKind.SheetAdded, id, null, [])],
                (_, null) => [new FolderChange(ChangeKind.SheetRemoved, id, null, [])],
                var (before, after) => Between(before, after),
            };
            foreach (var change in changes)
            {
                yield return change;
            }
        }
    }

    private static IEnumerable<FolderChange> Between(LimitSheet old, LimitSheet now)
    {
        var quantities = old.Quantities.Concat(now.Quantities).Select(limit => limit.Quantity).Distinct();
        foreach (var quantity in quantities.Order())
        {
            var parts = Changes(
                    old with
                    {
                        Quantities = Only(old, quantity),
                    },
                    old with
                    {
                        Quantities = Only(now, quantity),
                    }
                )
                .Select(change => change with { Where = Member(change.Where) })
                .ToImmutableArray();
            if (!parts.IsEmpty)
            {
                yield return new(ChangeKind.Limit, old.Id.Text, quantity, parts);
            }
        }

        var rest = Changes(old, now with { Quantities = old.Quantities }).ToImmutableArray();
        if (!rest.IsEmpty)
        {
            yield return new(
                ChangeKind.UnitKind,
                old.Id.Text,
                null,
                [.. rest.Select(change => change with { Where = change.Where.TrimStart('/') })]
            );
        }
    }

    private static ImmutableArray<QuantityLimit> Only(LimitSheet sheet, MeasuredQuantity quantity) =>
        sheet.Of(quantity) is { } limit ? [limit] : [];

    private static string Member(string pointer) =>
        pointer.StartsWith(Quantity, StringComparison.Ordinal) ? pointer[Quantity.Length..]
        : pointer == Quantities ? "limits"
        : pointer.TrimStart('/');

    private static IEnumerable<PartChange> Changes(LimitSheet old, LimitSheet now) =>
        JsonDifference
            .Between(LimitSheetFormat.Current.Write(old), LimitSheetFormat.Current.Write(now))
            .Select(change => new PartChange(change.Pointer, change.Old, change.New));
}
