using ServiceRules.Application.Demo;
using ServiceRules.Cli.Printing;
using ServiceRules.Cli.Setup;
using ServiceRules.Host;

namespace ServiceRules.Cli.Commands;

/// <summary>What somebody is told who starts the service with the demo: where to look, as whom, and what came of it.</summary>
internal static class DemoTelling
{
    // On standard output alone: a log is read by more people than whoever started it.
    public static void Begin(WaysIn ways, Uri address, Session session)
    {
        Tell("");
        Tell("The jobs of an invented shop are being filed; what is there can be looked at already.");
        Tell($"Open {address}records first, and sign in. Each of these is good until the next start:");
        Tell("");
        var widest = ways.DemoPasswords.Max(one => one.Key.Length);
        foreach (var (name, password) in ways.DemoPasswords)
        {
            Tell($"  {name.PadRight(widest)}  {password}  {May(name)}");
        }

        if (ways.DemoKey is { } key)
        {
            Tell("");
            Tell("For programs, with a key of the lead's role:");
            Tell($"  curl -H 'Authorization: Bearer {key}' {address}api/records");
        }

        Tell("");
        Tell($"{address}health/ready tells how far the filing is; what was found is told here at its end.");

        void Tell(string line) => session.Tell(line);
    }

    public static async Task EndAsync(Task<DemoSummary> filed, Uri address, Session session)
    {
        DemoSummary summary;
        try
        {
            summary = await filed;
        }
        catch (OperationCanceledException)
        {
            // It was stopped before; the log of the service tells what else it can be.
            return;
        }

        // In one piece, whatever else is told meanwhile.
        await session.Output.WriteAsync(Text(summary, address));
        await session.Output.FlushAsync();
    }

    private static string Text(DemoSummary summary, Uri address)
    {
        using var text = new StringWriter { NewLine = "\n" };
        text.WriteLine();
        text.WriteLine("All of the demo is filed.");
        SummaryPrint.Write(text, summary);
        text.WriteLine();
        if (summary.Faults.FirstOrDefault(fault => fault.IsFound) is { Judged.Job.Record.Id: var first })
        {
            text.WriteLine($"The first of the faults is at {address}records/{first}");
        }

        text.WriteLine($"The service goes on at {address} until Ctrl+C.");
        return text.ToString();
    }

    private static string May(string name) =>
        name[(name.LastIndexOf('-') + 1)..] switch
        {
            "technician" => "submits, and reads the records with that name in them",
            "lead" => "reads all, submits (/bench), corrects",
            "officer" => "reads all, comments, changes no record",
            "administrator" => "accounts and keys (/people, /keys), no records",
            _ => "",
        };
}
