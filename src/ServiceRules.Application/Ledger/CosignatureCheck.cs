using System.Collections.Immutable;
using System.Text;
using ServiceRules.Evidence.Log;

namespace ServiceRules.Application.Ledger;

/// <summary>Holds the cosignatures of checkpoints outside a log against the keys of the witnesses that should have made them.</summary>
internal static class CosignatureCheck
{
    /// <summary>The largest head that each witness cosigned, and what is wrong with cosignatures in their names.</summary>
    /// <param name="outside">The checkpoints; what is none of this log plays no part.</param>
    public static (ImmutableArray<CosignedHead> Heads, ImmutableArray<LedgerFault> Faults) Of(
        IReadOnlyCollection<ShelvedCheckpoint> outside,
        NoteKey log,
        IEnumerable<NoteKey> witnesses
    )
    {
        var heads = ImmutableArray.CreateBuilder<CosignedHead>();
        var faults = ImmutableArray.CreateBuilder<LedgerFault>();
        foreach (var witness in witnesses.Distinct())
        {
            CosignedHead? largest = null;
            foreach (var (where, checkpoint) in Signed(outside, log))
            {
                var verdict = checkpoint.Note.Verify([witness]);
                if (!verdict.Failed.IsEmpty)
                {
                    faults.Add(
                        new(
                            LedgerFaultCode.Cosignature,
                            where,
                            $"the cosignature of `{witness.Name}` does not hold"
                        )
                    );
                }
                else if (verdict.IsTrusted && (largest is null || checkpoint.Head.Size > largest.Size))
                {
                    largest = new(witness, checkpoint.Head.Size, verdict.Verified[^1].CosignedAt, where);
                }
            }

            if (largest is not null)
            {
                heads.Add(largest);
            }
            else
            {
                faults.Add(
                    new(
                        LedgerFaultCode.CosignatureMissing,
                        "the checkpoints outside",
                        $"none of this log bears a cosignature of `{witness.Name}`, key {witness.IdText}, that holds"
                    )
                );
            }
        }

        return (heads.ToImmutable(), faults.ToImmutable());
    }

    private static IEnumerable<(string Where, SignedCheckpoint Checkpoint)> Signed(
        IEnumerable<ShelvedCheckpoint> outside,
        NoteKey log
    )
    {
        foreach (var shelved in outside)
        {
            if (
                SignedCheckpoint.TryParse(Encoding.UTF8.GetBytes(shelved.Note), out var checkpoint, out _)
                && checkpoint.Head.Origin == log.Name
                && checkpoint.IsSignedBy(log)
            )
            {
                yield return (shelved.Where, checkpoint);
            }
        }
    }
}
