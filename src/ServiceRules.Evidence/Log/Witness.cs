namespace ServiceRules.Evidence.Log;

/// <summary>
/// What a witness decides, after C2SP tlog-witness: it cosigns a checkpoint only if the log signed it and it continues
/// the one cosigned last. It never goes back and never signs two roots of one size. A pure decision: the caller holds
/// the lock under which it reads what is known, decides, stores, and only then answers.
/// </summary>
public static class Witness
{
    /// <summary>Decides on one checkpoint.</summary>
    /// <param name="known">What the witness knows of the log that the checkpoint names.</param>
    /// <param name="growth">The size that the log believes to be the last one cosigned, with the proof from there.</param>
    /// <param name="checkpoint">The new checkpoint.</param>
    public static WitnessAnswer Consider(WitnessedLog known, GrowthProof growth, SignedCheckpoint checkpoint)
    {
        var head = checkpoint.Head;
        if (head.Origin != known.Origin || known.Keys.IsEmpty)
        {
            return Refuse(
                WitnessRefusal.UnknownLog,
                $"the log `{head.Origin}` is not known here; accepted: a log whose key is trusted here"
            );
        }

        if (!checkpoint.Note.Verify(known.Keys).IsTrusted)
        {
            return Refuse(
                WitnessRefusal.NotSignedByTheLog,
                $"no signature by the key trusted for `{head.Origin}` holds; accepted: one by {Names(known)}"
            );
        }

        if (growth.OldSize > head.Size)
        {
            return Refuse(
                WitnessRefusal.OldSizeAboveNew,
                $"the earlier size {LogText.Number(growth.OldSize)} is above the size {LogText.Number(head.Size)} of the checkpoint; "
                    + $"accepted: {LogText.Number(known.LatestSize)}"
            );
        }

        if (head.Size < known.LatestSize)
        {
            return Refuse(
                WitnessRefusal.OtherOldSize,
                $"the checkpoint has the size {LogText.Number(head.Size)}, but {LogText.Number(known.LatestSize)} was "
                    + $"cosigned last; accepted: {LogText.Number(known.LatestSize)} or more"
            );
        }

        if (growth.OldSize != known.LatestSize)
        {
            return Refuse(
                WitnessRefusal.OtherOldSize,
                $"the earlier size is {LogText.Number(growth.OldSize)}, but {LogText.Number(known.LatestSize)} was cosigned last; "
                    + $"accepted: the proof from {LogText.Number(known.LatestSize)}"
            );
        }

        return WhyNotConsistent(known.Latest, growth, head) is { } why
            ? Refuse(WitnessRefusal.NotConsistent, why)
            : new WitnessAnswer.Accepted();
    }

    private static string? WhyNotConsistent(Checkpoint? latest, GrowthProof growth, Checkpoint head)
    {
        if (head.Size == 0 && head.Root != MerkleTree.EmptyRoot)
        {
            return $"size 0 with the root {head.Root}; accepted: {MerkleTree.EmptyRoot}, the root of nothing";
        }

        if (growth.OldSize == 0)
        {
            return growth.Hashes.IsEmpty
                ? null
                : $"{LogText.Number(growth.Hashes.Length)} hashes of proof from size 0; accepted: none";
        }

        if (head.Size == latest!.Size && head.Root != latest.Root)
        {
            return $"two histories of `{head.Origin}`: at size {LogText.Number(head.Size)} the root {latest.Root} was cosigned, "
                + $"and now it is {head.Root}; accepted: no other root";
        }

        return growth.Proves(latest, head)
            ? null
            : $"the proof does not show that size {LogText.Number(head.Size)} with root {head.Root} continues size {LogText.Number(latest.Size)} "
                + $"with root {latest.Root}; accepted: the proof that it does";
    }

    private static string Names(WitnessedLog known) =>
        string.Join(" or ", known.Keys.Select(key => $"`{key.Name}` with id {key.IdText}"));

    private static WitnessAnswer.Refused Refuse(WitnessRefusal refusal, string told) => new(refusal, told);
}
