using ServiceRules.Application.Assessing;
using ServiceRules.Application.Filed;
using ServiceRules.Cli.Setup;
using ServiceRules.Domain.Records;
using ServiceRules.Formats.Json;
using ServiceRules.Formats.Registers;
using ServiceRules.Reporting.Reports.Words;

namespace ServiceRules.Cli.Printing;

/// <summary>
/// That a context lies beside a record and is other than the site's registers: `check` judges with the site's, a report of the file
/// with what lies beside it.
/// </summary>
internal static class ContextBesidePrint
{
    public static void Write(TextWriter error, FileInfo file, ServiceRecord record, AssessRecord judging)
    {
        var beside = ContextFile.Beside(file.FullName);
        if (!File.Exists(beside))
        {
            return;
        }

        var name = Path.GetFileName(beside);
        try
        {
            var read = ContextFormat.Current.Read(InputFile.ReadUpTo(beside, ReadLimits.Library.Bytes));
            if (!read.TryGet(out var context, out _))
            {
                error.WriteLine(
                    $"{name} lies beside the record and cannot be read; judged with the site's registers"
                );
                return;
            }

            var differing = judging.Differing(record, context);
            if (!differing.IsEmpty)
            {
                error.WriteLine(
                    $"{name} lies beside the record and is other than the site's registers of that day ({BroughtRegisters.Parts(differing)}); judged with the site's"
                );
            }
        }
        catch (InputException unusable)
        {
            unusable.Tell(error);
        }
    }
}
