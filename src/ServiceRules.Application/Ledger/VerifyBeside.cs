using System.Collections.Immutable;
using ServiceRules.Application.Accounts;
using ServiceRules.Application.Packs;
using ServiceRules.Evidence;
using ServiceRules.Formats.Ledger;

namespace ServiceRules.Application.Ledger;

/// <summary>
/// Holds the tables of acts and of what came into force against their entries: each row has its entry, each entry its row, and
/// both say the same. What was filed since the log was read is left to the next time.
/// </summary>
/// <param name="log">The log.</param>
/// <param name="entries">Every entry of it, in its order.</param>
internal sealed class VerifyBeside(ILedgerReading log, IReadOnlyList<FiledEntry> entries)
{
    private const int Page = 1000;

    private readonly ImmutableArray<LedgerFault>.Builder faults = ImmutableArray.CreateBuilder<LedgerFault>();
    private readonly long size = log.Head?.Size ?? 0;

    public ImmutableArray<LedgerFault> Verify(BesideLog beside)
    {
        var logged = entries
            .Where(entry => entry.Entry.Kind is EntryKind.Act)
            .ToDictionary(entry => entry.Index);
        Acts(logged, beside.Accounts);
        var said = logged
            .Values.Select(entry => (entry.Index, Act: Said(entry)))
            .Where(one => one.Act is not null)
            .ToDictionary(one => one.Index, one => one.Act!);
        Activations(said, beside.Rules);
        var waivers = entries
            .Where(entry => entry.Entry.Kind is EntryKind.Waiver)
            .ToDictionary(entry => entry.Index);
        faults.AddRange(new VerifyWaivers(waivers, said, size).Verify(beside.Waivers.Rows()));
        return faults.ToImmutable();
    }

    private void Acts(Dictionary<long, FiledEntry> logged, IAccountReading accounts)
    {
        var seen = new HashSet<long>();
        var isBeforeTheLog = true;
        // The newest come first, and those from before acts were put into the log are the oldest.
        foreach (var act in Every(accounts).Reverse())
        {
            isBeforeTheLog &= act.Entry is null;
            if (act.Entry is not { } index)
            {
                if (!isBeforeTheLog && act.What != AccountAct.SignInLocked)
                {
                    Tell(LedgerFaultCode.Act, ActOf(act), $"it is `{act.What}`, and has no entry in the log");
                }
            }
            else if (index < size)
            {
                Hold(logged, act, index, !seen.Add(index));
            }
        }

        foreach (var entry in logged.Values.Where(entry => !seen.Contains(entry.Index)))
        {
            Tell(
                LedgerFaultCode.Act,
                LedgerWords.Entry(entry.Index),
                "it is an act, and the table of acts has no row of it"
            );
        }
    }

    private void Hold(Dictionary<long, FiledEntry> logged, AccountAct act, long index, bool isAgain)
    {
        if (isAgain)
        {
            Tell(
                LedgerFaultCode.Act,
                ActOf(act),
                $"another row says that it is of {LedgerWords.Entry(index)} as well"
            );
        }
        else if (!logged.TryGetValue(index, out var entry))
        {
            Tell(
                LedgerFaultCode.Act,
                ActOf(act),
                $"it is said to be {LedgerWords.Entry(index)}, and no act stands there"
            );
        }
        else if (
            // A content that is lost is told of by itself.
            log.Sound(entry.Entry.Content)
                is { } bytes
            && LoggedActFormat.Current.Read(bytes).TryGet(out var said, out _)
            && LoggedActs.ContentOf(act) is var stands
            && stands != said
        )
        {
            Tell(
                LedgerFaultCode.Act,
                ActOf(act),
                $"it says {Said(stands)}, {LedgerWords.Entry(index)} says {Said(said)}"
            );
        }
    }

    private void Activations(Dictionary<long, LoggedAct> said, IRulesStore rules)
    {
        var rows = rules.Activations(int.MaxValue).Reverse().Where(row => !(row.Entry >= size)).ToList();
        foreach (var (row, at) in rows.Select((row, at) => (row, at + 1L)))
        {
            if (row.Number != at)
            {
                Tell(
                    LedgerFaultCode.Activation,
                    ActivationOf(row),
                    $"the {LedgerWords.Number(at)}. of the table: one before it is missing"
                );
                break;
            }
        }

        var filed = entries
            .Where(entry => entry.Entry.Kind is EntryKind.PackActivation)
            .ToDictionary(entry => entry.Index);
        foreach (var row in rows)
        {
            Hold(filed, row);
        }

        var known = rows.Where(row => row.Entry is not null).Select(row => row.Entry!.Value).ToHashSet();
        // Rules that were filed by hand judge nothing; those that came into force here have their act right behind them.
        foreach (
            var index in said.Where(act => act.Value.What == AccountAct.RulesActivated)
                .Select(act => act.Key)
                .Where(index => !known.Contains(index - 1))
        )
        {
            Tell(
                LedgerFaultCode.Activation,
                LedgerWords.Entry(index - 1),
                "rules came into force by it, and the table of what is in force has no row of it"
            );
        }

        foreach (var stored in rules.Stored(int.MaxValue))
        {
            if (
                !ContentHash.TryParse(stored.Digest, out var digest)
                || rules.Book(stored.Digest) is not { } book
                || ContentHash.Of(book.Span) != digest
            )
            {
                Tell(LedgerFaultCode.Activation, stored.Digest, "other rules are stored under this digest");
            }
        }
    }

    private void Hold(Dictionary<long, FiledEntry> activated, RulesActivation row)
    {
        if (row.Entry is not { } index)
        {
            // What the folder of rules held at the first start: the log tells it with the first record judged by it.
            if (row.Number != 1)
            {
                Tell(LedgerFaultCode.Activation, ActivationOf(row), "it has no entry in the log");
            }

            return;
        }

        if (!activated.TryGetValue(index, out var filed))
        {
            Tell(
                LedgerFaultCode.Activation,
                ActivationOf(row),
                $"it is said to be {LedgerWords.Entry(index)}, and no rules came into force there"
            );
            return;
        }

        foreach (
            var (what, stands, said) in new[]
            {
                ("digest", row.Digest, filed.Entry.Content),
                ("reason", row.Reason, filed.Entry.Reason),
                ("by", row.By, filed.Entry.By),
                ("at", Stamp(row.At), Stamp(filed.Entry.At)),
            }
        )
        {
            if (stands != said)
            {
                Tell(
                    LedgerFaultCode.Activation,
                    ActivationOf(row),
                    $"its {what} is `{stands}`, {LedgerWords.Entry(index)} says `{said}`"
                );
            }
        }
    }

    // What was erased or is lost says nothing; the latter is told of by itself.
    private LoggedAct? Said(FiledEntry act) =>
        log.Sound(act.Entry.Content) is { } bytes
        && LoggedActFormat.Current.Read(bytes).TryGet(out var said, out _)
            ? said
            : null;

    private static IEnumerable<AccountAct> Every(IAccountReading accounts)
    {
        for (long? before = null; ; )
        {
            var some = accounts.Acts(before, Page);
            foreach (var act in some)
            {
                yield return act;
            }

            if (some.Length < Page)
            {
                yield break;
            }

            before = some[^1].Number;
        }
    }

    private static string Stamp(DateTimeOffset at) => LedgerWords.Number(at.ToUnixTimeMilliseconds());

    private static string Said(LoggedAct act) =>
        $"`{act.What}` by `{act.By}` about `{act.About}` at {Stamp(act.At)}"
        + (act.Detail is { } detail ? $", `{detail}`" : "");

    private static string ActOf(AccountAct act) => $"act {LedgerWords.Number(act.Number)} of the table";

    private static string ActivationOf(RulesActivation row) => $"activation {LedgerWords.Number(row.Number)}";

    private void Tell(string code, string where, string told) => faults.Add(new(code, where, told));
}
