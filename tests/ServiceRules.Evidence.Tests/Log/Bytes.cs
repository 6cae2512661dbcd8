using System.Collections.Immutable;
using System.Text;
using ServiceRules.Evidence.Log;

namespace ServiceRules.Evidence.Tests.Log;

/// <summary>Texts of a log as the bytes that are read, and what their readers say.</summary>
internal static class Bytes
{
    public static byte[] Of(object text) => Encoding.UTF8.GetBytes(text.ToString()!);

    public static string Told(ImmutableArray<LogTextFault> faults) => string.Join('\n', faults);

    public static SignedNote Note(string text)
    {
        Assert.True(SignedNote.TryParse(Of(text), out var note, out var faults), Told(faults));
        return note!;
    }

    public static SignedCheckpoint Checkpoint(string text)
    {
        Assert.True(SignedCheckpoint.TryParse(Of(text), out var checkpoint, out var faults), Told(faults));
        return checkpoint!;
    }

    public static NoteKey Key(string text)
    {
        Assert.True(NoteKey.TryParse(text, out var key, out var fault), fault?.ToString());
        return key!;
    }

    /// <summary>One bit of the text flipped.</summary>
    public static byte[] Flipped(byte[] bytes, int bit)
    {
        var changed = (byte[])bytes.Clone();
        changed[bit / 8] ^= (byte)(1 << (bit % 8));
        return changed;
    }
}
