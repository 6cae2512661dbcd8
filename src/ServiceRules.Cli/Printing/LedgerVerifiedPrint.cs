using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using ServiceRules.Application.Ledger;
using ServiceRules.Cli.Setup;
using ServiceRules.Domain.Timeline;
using ServiceRules.Evidence.Log;

namespace ServiceRules.Cli.Printing;

/// <summary>What came of verifying a log.</summary>
internal sealed class LedgerVerifiedPrint(Session session, LedgerVerified verified, NoteKey key, bool isSoFar)
{
    public void Print(bool asJson)
    {
        if (asJson)
        {
            session.Output.WriteLine(ToJson());
            return;
        }

        var (word, style) =
            !verified.Faults.IsEmpty ? ("NOT SOUND", "red")
            : isSoFar ? ("SOUND SO FAR AS IT GOES", "yellow")
            : ("SOUND", "green");
        session.Screen.MarkedLine($"[bold]{key.Name}[/]: [bold {style}]{word}[/]");
        var screen = session.Screen;
        screen.TextLine($"  entries      {verified.Size}, their tree has root {verified.Root}");
        screen.TextLine(
            $"  contents     {verified.Contents} hashed again{(verified.Erased > 0 ? $", {verified.Erased} erased" : "")}"
        );
        screen.TextLine(
            $"  checkpoints  {verified.Checkpoints} held against the entries, log key {key.IdText}"
        );
        foreach (var head in verified.Cosigned)
        {
            screen.TextLine(
                $"  cosigned     size {head.Size} by {head.Witness.Name}, key {head.Witness.IdText}"
                    + (head.At is { } at ? $", at {UtcTime.Print(at)} by its clock" : "")
            );
        }

        foreach (var alike in verified.Faults.GroupBy(fault => (fault.Code, fault.Told)))
        {
            var more = alike.Count() - 1;
            screen.TextLine(
                $"  FAULT  {alike.Key.Code}: {alike.First()}"
                    + (more > 0 ? $" (and {more} more, the last at {alike.Last().Where})" : "")
            );
        }

        if (isSoFar)
        {
            screen.TextLine(
                "  no checkpoint of it is kept outside, so that it may have been put back from an older copy; accepted: --checkpoints "
                    + "and the folder where they are, or --accept-missing-checkpoints"
            );
        }

        foreach (var remark in verified.Remarks)
        {
            screen.TextLine($"  note   {remark}");
        }
    }

    private string ToJson()
    {
        using var bytes = new MemoryStream();
        using (
            var json = new Utf8JsonWriter(
                bytes,
                new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping }
            )
        )
        {
            json.WriteStartObject();
            json.WriteString("log", key.Name);
            json.WriteString("logKey", key.IdText);
            json.WriteBoolean("sound", verified.Faults.IsEmpty && !isSoFar);
            json.WriteBoolean("checkpointsMissing", isSoFar);
            json.WriteNumber("entries", verified.Size);
            json.WriteString("root", verified.Root.ToString());
            json.WriteNumber("contents", verified.Contents);
            json.WriteNumber("erased", verified.Erased);
            json.WriteNumber("checkpoints", verified.Checkpoints);
            json.WriteStartArray("cosigned");
            foreach (var head in verified.Cosigned)
            {
                json.WriteStartObject();
                json.WriteString("witness", head.Witness.Name);
                json.WriteString("witnessKey", head.Witness.IdText);
                json.WriteNumber("size", head.Size);
                if (head.At is { } at)
                {
                    json.WriteString("at", UtcTime.Stamp(at));
                }

                json.WriteEndObject();
            }

            json.WriteEndArray();
            json.WriteStartArray("faults");
            foreach (var fault in verified.Faults)
            {
                json.WriteStartObject();
                json.WriteString("code", fault.Code);
                json.WriteString("where", fault.Where);
                json.WriteString("told", fault.Told);
                json.WriteEndObject();
            }

            json.WriteEndArray();
            json.WriteStartArray("remarks");
            foreach (var remark in verified.Remarks)
            {
                json.WriteStringValue(remark);
            }

            json.WriteEndArray();
            json.WriteEndObject();
        }

        return Encoding.UTF8.GetString(bytes.ToArray());
    }
}
