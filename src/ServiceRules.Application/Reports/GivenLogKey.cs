using System.Diagnostics.CodeAnalysis;
using ServiceRules.Evidence.Log;

namespace ServiceRules.Application.Reports;

/// <summary>A log's key as somebody got it from the log's keeper: a verifier key bears the log's name, PEM does not.</summary>
public sealed record GivenLogKey
{
    private const string Unnamed = "log";

    private readonly NoteKey key;

    private GivenLogKey(NoteKey key, bool isNamed) => (this.key, IsNamed) = (key, isNamed);

    public bool IsNamed { get; }

    public static bool TryParse(
        string text,
        [NotNullWhen(true)] out GivenLogKey? given,
        [NotNullWhen(false)] out LogTextFault? fault
    )
    {
        ArgumentNullException.ThrowIfNull(text);
        given = NoteKey.TryRead(Unnamed, text, out var key, out fault)
            ? new GivenLogKey(key, !NoteKey.IsPem(text))
            : null;
        return given is not null;
    }

    /// <summary>Whether it is this key; one without a name is taken for the log's whatever it is called.</summary>
    public bool Is(NoteKey other)
    {
        ArgumentNullException.ThrowIfNull(other);
        return IsNamed ? key == other : key.ToPem() == other.ToPem();
    }

    /// <summary>Whether it signed a checkpoint; one without a name is taken for the log's whatever it is called.</summary>
    public bool HasSigned(SignedCheckpoint checkpoint)
    {
        ArgumentNullException.ThrowIfNull(checkpoint);
        return IsNamed
            ? checkpoint.IsSignedBy(key)
            : NoteKey.TryFromPem(checkpoint.Head.Origin, key.ToPem(), out var named, out _)
                && checkpoint.IsSignedBy(named);
    }

    /// <summary>Name, if it bears one, and id.</summary>
    public override string ToString() =>
        IsNamed ? $"of `{key.Name}`, id {key.IdText}" : $"id {key.IdText}, in PEM, which names no log";
}
