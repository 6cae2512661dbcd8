using System.Collections.Immutable;
using System.Globalization;
using ServiceRules.Application.Rows;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Evidence;
using ServiceRules.Evidence.Log;

namespace ServiceRules.Application.Ledger;

/// <summary>
/// Rebuilds a log from its entries and contents and holds it against everything that was ever signed about it. Believes
/// nothing that is stored, and tells every fault, not the first alone.
/// </summary>
public sealed class VerifyLedger(ILedgerReading log, NoteKey key)
{
    private readonly ImmutableArray<LedgerFault>.Builder faults = ImmutableArray.CreateBuilder<LedgerFault>();
    private readonly ImmutableArray<string>.Builder remarks = ImmutableArray.CreateBuilder<string>();
    private readonly HashSet<ContentHash> hashed = [];

    /// <summary>Whether the key came from elsewhere than the log itself.</summary>
    public bool IsKeyGiven { get; init; }

    /// <summary>Keys of witnesses, each of which must have cosigned a checkpoint outside.</summary>
    public ImmutableArray<NoteKey> Witnesses { get; init; } = [];

    /// <summary>What lists and searches are made of, as it is at the same moment; null where there is none beside the log.</summary>
    public IRowReading? Rows { get; init; }

    /// <summary>What stands beside the log and repeats it, read once the log was; null where there is none.</summary>
    public BesideLog? Beside { get; init; }

    /// <param name="outside">Checkpoints kept apart from the log.</param>
    /// <param name="damage">What the store found wrong with its own files.</param>
    public LedgerVerified Verify(
        IReadOnlyCollection<ShelvedCheckpoint> outside,
        IReadOnlyCollection<string> damage
    )
    {
        ArgumentNullException.ThrowIfNull(outside);
        ArgumentNullException.ThrowIfNull(damage);
        faults.AddRange(damage.Select(told => new LedgerFault(LedgerFaultCode.Store, "the database", told)));
        var history = LogHistory.Read(log, key, outside, true);
        faults.AddRange(history.Faults);
        remarks.AddRange(history.Remarks);
        var (cosigned, unsound) = CosignatureCheck.Of(outside, key, Witnesses);
        faults.AddRange(unsound);
        var entries = Entries();
        var erased = Erasures.Of(log, entries);
        var contents = new ContentCheck(log, entries, erased, faults, hashed);
        foreach (var entry in entries)
        {
            contents.Check(entry);
        }

        if (Rows is { } rows)
        {
            var held = new VerifyRows(log, rows, erased);
            faults.AddRange(held.Verify(entries));
            if (held.Remark is { } remark)
            {
                remarks.Add(remark);
            }
        }

        if (Beside is { } beside)
        {
            faults.AddRange(new VerifyBeside(log, entries).Verify(beside));
        }

        Unnamed(erased);
        foreach (var (semantics, count) in contents.OtherSemantics)
        {
            remarks.Add(
                $"{LedgerWords.Number(count)} assessments are by version `{semantics}` of the verdict semantics, here it is "
                    + $"`{Assessment.SemanticsVersion}`: they were held against their digests, and their verdicts not read"
            );
        }

        People();
        if (!IsKeyGiven)
        {
            remarks.Add(
                $"the key {key.IdText} was found with the log: whoever made the log anew would have put a new key there; "
                    + "what is said here holds for the log of this key alone"
            );
        }

        if (history.Outside == 0)
        {
            remarks.Add(
                "no checkpoint outside the log was given that speaks of it: a log made anew with its key would not be found out"
            );
        }

        return new LedgerVerified(
            history.Tree.Size,
            history.Tree.Root,
            hashed.Count,
            erased.Count,
            history.Outside + log.Checkpoints().LongCount(),
            [.. faults.Distinct()],
            remarks.ToImmutable()
        )
        {
            IsUnspokenFor = history.Outside == 0 && log.Checkpoints().Skip(1).Any(),
            Cosigned = cosigned,
        };
    }

    private void People()
    {
        var unbound = new List<string>();
        foreach (var named in log.People())
        {
            if (named.IsBound is null)
            {
                unbound.Add(named.Pseudonym);
            }
            else if (named.IsBound is false)
            {
                faults.Add(
                    new(
                        LedgerFaultCode.Person,
                        named.Pseudonym,
                        $"the name `{named.Person}` stands behind it, and it was made for another"
                    )
                );
            }
        }

        if (unbound.Count > 0)
        {
            remarks.Add(
                $"nothing says that the names behind {string.Join(", ", unbound)} are those they were made for: "
                    + "they are from before names were bound to pseudonyms"
            );
        }
    }

    private List<FiledEntry> Entries()
    {
        var entries = new List<FiledEntry>();
        foreach (var stored in log.Entries(0))
        {
            if (EntryReading.TryRead(stored, out var entry, out var why))
            {
                if (entries.Count > 0 && entry.Entry.At < entries[^1].Entry.At)
                {
                    remarks.Add(
                        $"at {LedgerWords.Entry(entry.Index)} the clock went back from {UtcTime.Print(entries[^1].Entry.At)} to "
                            + $"{UtcTime.Print(entry.Entry.At)}; order goes by place, not by time"
                    );
                }

                entries.Add(entry);
            }
            else
            {
                faults.Add(new(LedgerFaultCode.Entry, LedgerWords.Entry(stored.Index), why));
            }
        }

        return entries;
    }

    private void Unnamed(HashSet<ContentHash> erased)
    {
        var unnamed = log.Contents().Count(hash => !hashed.Contains(hash));
        if (unnamed > 0)
        {
            remarks.Add(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"{unnamed} stored contents are named by no entry; nothing rests on them"
                )
            );
        }

        var back = log.Contents().Count(erased.Contains);
        if (back > 0)
        {
            remarks.Add(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"{back} contents that an erasure removed are stored again"
                )
            );
        }
    }
}
