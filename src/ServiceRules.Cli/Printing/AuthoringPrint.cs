using ServiceRules.Application.Authoring;
using ServiceRules.Cli.Setup;

namespace ServiceRules.Cli.Printing;

/// <summary>What came of writing something into a folder of rules.</summary>
internal static class AuthoringPrint
{
    /// <param name="next">What is told once it is written.</param>
    public static int Write(
        Session session,
        string folder,
        AuthoringOutcome outcome,
        params IEnumerable<string> next
    )
    {
        switch (outcome)
        {
            case AuthoringOutcome.Refused refused:
                foreach (var line in refused.Lines)
                {
                    session.Error.WriteLine(line);
                }

                session.Error.WriteLine($"nothing was written to `{folder}`");
                return ExitCode.Unusable;
            case AuthoringOutcome.Written written:
                foreach (var file in written.Files)
                {
                    session.Tell($"written: {Path.Combine(folder, file)}");
                }

                foreach (var line in written.Notices.Concat(next))
                {
                    session.Tell(line);
                }

                return ExitCode.Good;
            default:
                throw new InvalidOperationException("an unknown outcome of writing rules");
        }
    }
}
