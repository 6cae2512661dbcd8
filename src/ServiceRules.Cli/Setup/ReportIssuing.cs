using System.CommandLine;
using System.Text;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.SafeWork;
using ServiceRules.Reporting.Signing;
using ServiceRules.Reporting.Timestamping;

namespace ServiceRules.Cli.Setup;

/// <summary>Issues a report: checks the places, opens the key, files where a ledger is named, writes.</summary>
internal sealed class ReportIssuing(ParseResult parsed, Session session)
{
    /// <summary>Every option that says how a report is signed, stamped and written.</summary>
    public static IEnumerable<Option> Options =>
        [
            ReportPlaces.Output,
            ReportPlaces.Certificate,
            RulesInForce.Option,
            TimestampAuthorities.Asked,
            LedgerPlace.Option,
            LedgerPlace.Checkpoints,
            LedgerPlace.AcceptMissing,
            LedgerPlace.BringBack,
            ReportFiling.Superseded,
            .. SigningKeys.All,
        ];

    private FileInfo Output => parsed.GetRequiredValue(ReportPlaces.Output);

    private FileInfo? Certificate => parsed.GetValue(ReportPlaces.Certificate);

    /// <summary>A report of one record, filed where a ledger is named.</summary>
    /// <param name="file">The record.</param>
    /// <param name="judge">Reads and judges it; null: it cannot be, and that was told.</param>
    /// <param name="draw">Draws and signs.</param>
    /// <param name="title">The title that it carries.</param>
    /// <param name="told">What was written, for the screen.</param>
    public int OfRecord(
        FileInfo file,
        Func<Assessed?> judge,
        ReportDrawing<Assessed> draw,
        Func<Assessed, string> title,
        Func<Assessed, string> told
    ) =>
        Issue(
            [file.FullName],
            judge,
            (assessed, key, authority) =>
            {
                using var filing = ReportFiling.Open(parsed, session, file);
                return Filed(assessed, key, authority, filing, draw);
            },
            title,
            told
        );

    /// <summary>A report of a period, filed where a ledger is named.</summary>
    /// <param name="inputs">Files and folders it is made from.</param>
    /// <param name="read">Reads and judges; null: it cannot be, and that was told.</param>
    /// <param name="draw">Draws and signs.</param>
    /// <param name="title">The title that it carries.</param>
    /// <param name="told">What was written, for the screen.</param>
    public int OfPeriod(
        IReadOnlyCollection<string> inputs,
        Func<SafeWorkPeriod?> read,
        ReportDrawing<SafeWorkPeriod> draw,
        Func<SafeWorkPeriod, string> title,
        Func<SafeWorkPeriod, string> told
    ) =>
        Issue(
            inputs,
            read,
            (period, key, authority) =>
            {
                using var filing = ReportFiling.Open(parsed, session, Output);
                return Kept(
                    draw(period, key, session.Clock.GetUtcNow(), authority, null),
                    (byte[] pdf, out int code) => End(filing, period, pdf, out code)
                );
            },
            title,
            told
        );

    private int Issue<T>(
        IReadOnlyCollection<string> inputs,
        Func<T?> read,
        Func<T, SigningKey, ITimestampAuthority?, int> write,
        Func<T, string> title,
        Func<T, string> told
    )
        where T : class
    {
        try
        {
            ReportPlaces.Check(inputs, Output, Certificate);
            if (parsed.GetValue(LedgerPlace.Option) is not null)
            {
                ReportPlaces.CheckProof(inputs, Output, Certificate);
            }

            using var authority = TimestampAuthorities.Open(parsed);
            if (read() is not { } value)
            {
                return ExitCode.Unusable;
            }

            ReportPlaces.CheckEarlier(Output, title(value));
            using var key = SigningKeys.Open(parsed, session);
            if (write(value, key, authority) is var code and not ExitCode.Good)
            {
                return code;
            }

            if (Certificate is { } certificate)
            {
                InputFile.Write(certificate.FullName, Encoding.ASCII.GetBytes(key.CertificatePem + "\n"));
            }

            session.Tell($"{Output}: {told(value)}");
            return ExitCode.Good;
        }
        catch (TimestampException refusal)
        {
            session.Error.WriteLine($"no report was written: {refusal.Message}");
            return ExitCode.Failed;
        }
    }

    private int Filed(
        Assessed assessed,
        SigningKey key,
        ITimestampAuthority? authority,
        ReportFiling? filing,
        ReportDrawing<Assessed> draw
    )
    {
        var filed = ExitCode.Good;
        var proofs = filing?.Begin(assessed, out filed);
        if (filed != ExitCode.Good)
        {
            return filed;
        }

        var pdf = draw(assessed, key, session.Clock.GetUtcNow(), authority, proofs);
        return Kept(pdf, (byte[] file, out int code) => End(filing, assessed, file, out code));
    }

    /// <summary>Files a finished report; its proof, or null where it is not filed.</summary>
    private delegate byte[]? Filing(byte[] pdf, out int exitCode);

    private static byte[]? End(ReportFiling? filing, Assessed assessed, byte[] pdf, out int exitCode)
    {
        exitCode = ExitCode.Good;
        return filing?.End(assessed, pdf, out exitCode);
    }

    private static byte[]? End(ReportFiling? filing, SafeWorkPeriod period, byte[] pdf, out int exitCode)
    {
        exitCode = ExitCode.Good;
        return filing?.End(period, pdf, out exitCode);
    }

    private int Kept(byte[] pdf, Filing file)
    {
        // On the disk before it is filed: a filed report that nobody has could not be made again.
        using var draft = DraftFile.Of(Output.FullName, pdf);
        var proof = file(pdf, out var filed);
        if (filed != ExitCode.Good)
        {
            return filed;
        }

        draft.Keep();
        if (proof is not null)
        {
            InputFile.Write(ReportPlaces.ProofOf(Output).FullName, proof);
        }
        else if (ReportPlaces.ProofOf(Output).Exists)
        {
            session.Error.WriteLine(
                $"`{ReportPlaces.ProofOf(Output)}` is the proof of an earlier report, not of this one, which is not filed"
            );
        }

        return ExitCode.Good;
    }
}
