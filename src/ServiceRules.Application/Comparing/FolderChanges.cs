using System.Collections.Immutable;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Library;
using ServiceRules.Domain.Site;
using ServiceRules.Formats.Registers;
using ServiceRules.Rules.Layering;

namespace ServiceRules.Application.Comparing;

/// <summary>Everything that two folders of rules say differently, as far as it judges or is shown.</summary>
internal static class FolderChanges
{
    public static ImmutableArray<FolderChange> Between(RuleSide old, RuleSide now) =>
        [
            .. Rules(old, now),
            .. Citations(old, now),
            .. SheetDifference.Between(old.Book, now.Book),
            .. Orders(old.Site, now.Site),
            .. Waivers(old.Site, now.Site),
            .. Jurisdictions(old.Site, now.Site),
            .. Registers(old.Site, now.Site),
        ];

    private static IEnumerable<FolderChange> Rules(RuleSide old, RuleSide now)
    {
        var named = RulesInForce
            .Of(old.Book.Packs, now.Site.Jurisdictions)
            .Select(rule => rule.Id.Text)
            .ToHashSet(StringComparer.Ordinal);
        foreach (var id in old.InForce.Keys.Union(now.InForce.Keys).Order(StringComparer.Ordinal))
        {
            switch (old.InForce.GetValueOrDefault(id), now.InForce.GetValueOrDefault(id))
            {
                case (null, _):
                    yield return Whole(
                        named.Contains(id) ? ChangeKind.Jurisdiction : ChangeKind.RuleAdded,
                        id
                    );
                    break;
                case (_, null):
                    yield return Whole(
                        named.Contains(id) ? ChangeKind.RuleRemoved : ChangeKind.Jurisdiction,
                        id
                    );
                    break;
                case ({ } before, { } after):
                    foreach (var parts in RuleDifference.Between(before, after).GroupBy(KindOf))
                    {
                        yield return new(parts.Key, id, null, [.. parts]);
                    }

                    break;
            }
        }
    }

    private static ChangeKind KindOf(PartChange change) =>
        change.Where.Split('/')[0] switch
        {
            "when" => ChangeKind.Condition,
            "check" or "scope" => ChangeKind.Check,
            "decision" => ChangeKind.Decision,
            "severity" or "unproven" => ChangeKind.Severity,
            _ => ChangeKind.Words,
        };

    private static IEnumerable<FolderChange> Citations(RuleSide old, RuleSide now)
    {
        foreach (var id in old.InForce.Keys.Intersect(now.InForce.Keys).Order(StringComparer.Ordinal))
        {
            var (before, after) = (Cited(old, id), Cited(now, id));
            if (!string.Equals(before, after, StringComparison.Ordinal))
            {
                yield return new(ChangeKind.Citation, id, null, [new("cites", before, after)]);
            }
        }
    }

    private static string? Cited(RuleSide side, string rule) =>
        CitationsInForce.Of(side.Book.Packs, side.Site.Jurisdictions, new(rule)) is { } cited
            ? $"{cited.Pack}: {string.Join("; ", cited.Citations.Select(one => string.Join(", ", one.Clauses)))}"
            : null;

    private static IEnumerable<FolderChange> Orders(SiteRegisters old, SiteRegisters now)
    {
        var before = ById(old.SettingOrders);
        var after = ById(now.SettingOrders);
        foreach (var id in before.Keys.Union(after.Keys).Order(StringComparer.Ordinal))
        {
            var changes = (before.GetValueOrDefault(id), after.GetValueOrDefault(id)) switch
            {
                (null, _) => [new PartChange("setting order", null, id)],
                (_, null) => [new PartChange("setting order", id, null)],
                var (one, other) => Changes(
                    SettingOrderFormat.Current.Write(one),
                    SettingOrderFormat.Current.Write(other)
                ),
            };
            if (!changes.IsEmpty)
            {
                yield return new(ChangeKind.Setting, id, null, changes);
            }
        }
    }

    private static Dictionary<string, SettingOrder> ById(ImmutableArray<SettingOrder> orders) =>
        orders.ToDictionary(order => order.Id.Text, StringComparer.Ordinal);

    private static IEnumerable<FolderChange> Waivers(SiteRegisters old, SiteRegisters now) =>
        old
            .Waivers.Except(now.Waivers)
            .Select(waiver => (waiver.Rule, Change: new PartChange("waiver", Told(waiver), null)))
            .Concat(
                now.Waivers.Except(old.Waivers)
                    .Select(waiver => (waiver.Rule, Change: new PartChange("waiver", null, Told(waiver))))
            )
            .GroupBy(one => one.Rule, StringComparer.Ordinal)
            .OrderBy(group => group.Key, StringComparer.Ordinal)
            .Select(group => new FolderChange(
                ChangeKind.Waiver,
                group.Key,
                null,
                [.. group.Select(one => one.Change)]
            ));

    private static string Told(Waiver waiver) =>
        FormattableString.Invariant(
            $"by {waiver.By}{(waiver.Unit is { } unit ? $" for {unit}" : "")}, {waiver.From:yyyy-MM-dd} to {waiver.Until:yyyy-MM-dd}"
        );

    private static IEnumerable<FolderChange> Jurisdictions(SiteRegisters old, SiteRegisters now)
    {
        if (!old.Jurisdictions.SequenceEqual(now.Jurisdictions, StringComparer.Ordinal))
        {
            yield return new(
                ChangeKind.Jurisdiction,
                "site",
                null,
                [
                    new(
                        "jurisdictions",
                        string.Join(", ", old.Jurisdictions),
                        string.Join(", ", now.Jurisdictions)
                    ),
                ]
            );
        }
    }

    private static IEnumerable<FolderChange> Registers(SiteRegisters old, SiteRegisters now) =>
        Changes(Written(old), Written(now))
            .GroupBy(change => change.Where.Split('/')[0], StringComparer.Ordinal)
            .Select(group => new FolderChange(ChangeKind.Register, group.Key, null, [.. group]));

    /// <summary>All registers that are not told by themselves, as one document.</summary>
    private static byte[] Written(SiteRegisters site) =>
        ContextFormat.Current.Write(
            new AssessmentContext
            {
                Site = site.Name,
                Zone = site.Zone,
                Procedures = site.Procedures,
                People = site.People,
                Locks = site.Locks,
                Machines = site.Machines,
                LockStyle = site.LockStyle,
                RemovalException = site.RemovalException,
                Attendance = site.Attendance,
                Elsewhere = site.Elsewhere,
            }
        );

    private static ImmutableArray<PartChange> Changes(byte[] old, byte[] now) =>
        [
            .. JsonDifference
                .Between(old, now)
                .Select(change => new PartChange(change.Pointer.TrimStart('/'), change.Old, change.New)),
        ];

    private static FolderChange Whole(ChangeKind kind, string rule) => new(kind, rule, null, []);
}
