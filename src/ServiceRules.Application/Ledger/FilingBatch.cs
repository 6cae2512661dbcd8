using System.Collections.Immutable;
using System.Diagnostics.CodeAnalysis;
using ServiceRules.Application.Rows;
using ServiceRules.Evidence;
using ServiceRules.Formats.Ledger;

namespace ServiceRules.Application.Ledger;

/// <summary>Filings in one transaction, each decided on what those before it left.</summary>
/// <param name="writing">The transaction.</param>
/// <param name="erasures">What was removed before it.</param>
/// <param name="size">Number of entries before it.</param>
/// <param name="clock">The clock.</param>
internal sealed class FilingBatch(
    ILedgerWriting writing,
    ErasuresSeen erasures,
    long size,
    TimeProvider clock
)
{
    private readonly HashSet<ContentHash> removed = [.. erasures.Contents];
    private readonly HashSet<ContentHash> forgotten = [.. erasures.Forgotten];
    private bool anyForgotten = erasures.Any;

    /// <summary>The entries appended so far.</summary>
    public List<FiledEntry> Added { get; } = [];

    /// <summary>Runs one filing, and gives what came of it once the head that covers it is known.</summary>
    [SuppressMessage(
        "Design",
        "CA1031",
        Justification = "A defect that one filing meets must not undo its neighbours; whoever filed it is told."
    )]
    public Func<LedgerHead?, FilingAttempt> Attempt(Func<ILedgerWriting, FilingPlan> decide)
    {
        try
        {
            var part = writing.Within(() => File(decide));
            Added.AddRange(part.Added);
            removed.UnionWith(part.Plan.Removed);
            if (part.Added.Exists(entry => entry.Entry.Kind is EntryKind.Erasure))
            {
                anyForgotten = true;
                forgotten.UnionWith(part.Plan.Removed);
            }

            return head => new FilingAttempt.Came(
                new FilingOutcome.Filed(part.Placed, head!) { FirstNamed = part.FirstNamed }
            );
        }
        catch (UnfitEntryException unfit)
        {
            return _ => new FilingAttempt.Came(new FilingOutcome.Refused(unfit.Refusal));
        }
        catch (BrokenLogException broken)
        {
            return _ => new FilingAttempt.Came(new FilingOutcome.Broken(broken.Fault));
        }
        catch (Exception failure) when (failure is not LedgerStoreException { EndsTransaction: true })
        {
            return _ => new FilingAttempt.Failed(failure);
        }
    }

    private Part File(Func<ILedgerWriting, FilingPlan> decide)
    {
        var plan = decide(writing) switch
        {
            FilingPlan.Refuse refuse => throw new UnfitEntryException(refuse.Refusal),
            FilingPlan.File file => file,
            _ => throw new InvalidOperationException("an unknown plan"),
        };
        if (
            plan
                .Parts.OfType<FilingPart.New>()
                .Select(part =>
                    NamedPerson.Fault(part.Draft.Person)
                    ?? NamedPerson.Fault(part.Draft.Sender?.Person)
                    ?? ReasonNames.RefusalOf(part.Draft, writing)
                )
                .FirstOrDefault(fault => fault is not null) is
            { } unfit
        )
        {
            throw new UnfitEntryException(unfit);
        }

        var firstNamed = FirstNamed(plan);
        var placed = Placed(plan);
        var added = placed.Where(one => one.IsNew).Select(one => one.Entry).ToList();
        if (added.Count > 0)
        {
            if (!plan.BringsBack && ReturnedContent.RefusalOf(removed, forgotten, plan) is { } returned)
            {
                throw new UnfitEntryException(returned);
            }

            Store(plan, added);
        }

        plan.Also?.Invoke(writing, placed);
        return new(plan, placed, added, added.Count > 0 ? firstNamed : []);
    }

    private void Store(FilingPlan.File plan, List<FiledEntry> added)
    {
        foreach (var content in plan.Beside)
        {
            writing.Keep(ContentHash.Of(content.Span), content);
        }

        foreach (var entry in added)
        {
            writing.Append(new StoredEntry(entry.Index, entry.Bytes));
        }

        foreach (var gone in plan.Removed)
        {
            writing.Remove(gone);
        }

        if (plan.Forgotten is { } pseudonym)
        {
            writing.Forget(pseudonym);
            writing.Rows.DropAnswers(pseudonym);
        }

        RowsOfLog.Follow(writing, added, IsErased);
        if (plan.Removed.Length > 0)
        {
            RowsOfLog.Shrink(writing, plan.Removed, IsErased);
        }

        bool IsErased(ContentHash hash) => removed.Contains(hash) || plan.Removed.Contains(hash);
    }

    // Who is behind a pseudonym that is gone cannot be told, not even from the name; so it is told that they may be back.
    private ImmutableArray<string> FirstNamed(FilingPlan.File plan)
    {
        var unknown = plan
            .Parts.OfType<FilingPart.New>()
            .SelectMany(part => (string?[])[part.Draft.Person, part.Draft.Sender?.Person])
            .OfType<string>()
            .Distinct(StringComparer.Ordinal)
            .Where(person => writing.PseudonymOf(person) is null)
            .ToImmutableArray();
        return unknown.IsEmpty || !anyForgotten ? [] : unknown;
    }

    private ImmutableArray<FilingOutcome.Placed> Placed(FilingPlan.File plan)
    {
        var placed = ImmutableArray.CreateBuilder<FilingOutcome.Placed>();
        var index = size + Added.Count;
        foreach (var part in plan.Parts)
        {
            switch (part)
            {
                case FilingPart.Standing standing:
                    placed.Add(new(standing.Entry, false));
                    break;
                case FilingPart.New { Draft: var draft }:
                    writing.Keep(draft.Hash, draft.Content);
                    placed.Add(
                        new(EntryWriting.Write(draft, index, clock.GetUtcNow(), writing.PseudonymFor), true)
                    );
                    index++;
                    break;
                default:
                    throw new InvalidOperationException("an unknown part of a filing");
            }
        }

        return placed.ToImmutable();
    }

    private sealed record Part(
        FilingPlan.File Plan,
        ImmutableArray<FilingOutcome.Placed> Placed,
        List<FiledEntry> Added,
        ImmutableArray<string> FirstNamed
    );
}
