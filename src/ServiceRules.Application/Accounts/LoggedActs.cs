using System.Globalization;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Ledger;
using ServiceRules.Formats.Ledger;

namespace ServiceRules.Application.Accounts;

/// <summary>
/// Puts acts into the log as entries of their own, in the transaction of what they tell of: whoever changes them in the
/// database is found out by every checkpoint outside.
/// </summary>
public sealed class LoggedActs(OpenLedger ledger)
{
    private const string SubjectStart = "act.";
    private const int MostOfSubject = LedgerEntryFormat.SubjectLength;

    /// <summary>
    /// How often the log takes it that an account was locked by guessing. Anybody can bring that about: it must not fill the log.
    /// What came in between stands in the table, and the next entry says how many.
    /// </summary>
    public static readonly TimeSpan GuessingStep = TimeSpan.FromHours(24);

    /// <summary>Runs a change, and files the acts that tell of it with it.</summary>
    /// <param name="work">The change, in the transaction; it hands over its acts.</param>
    /// <exception cref="LedgerStoreException">Nothing was changed, or whether it was cannot be told.</exception>
    public T Write<T>(Func<ILedgerWriting, Action<AccountAct>, T> work)
    {
        ArgumentNullException.ThrowIfNull(work);
        T answer = default!;
        var outcome = ledger.File(log =>
        {
            var noted = new List<AccountAct>();
            answer = work(log, noted.Add);
            return With(log, new FilingPlan.File([], []), noted);
        });
        return outcome switch
        {
            FilingOutcome.Filed => answer,
            FilingOutcome.Broken broken => throw new LedgerStoreException(
                StoreTrouble.Damaged,
                broken.Fault.ToString()
            ),
            FilingOutcome.Refused refused => throw new InvalidOperationException(refused.Refusal.ToString()),
            _ => throw new InvalidOperationException("an unknown outcome of a filing"),
        };
    }

    /// <summary>What an act's entry is about: who or what it was done to, as subjects are spelled.</summary>
    public static string SubjectOf(LoggedAct act)
    {
        ArgumentNullException.ThrowIfNull(act);
        var spelled = new string([
            .. act.About.Select(symbol =>
                char.IsAsciiLetterOrDigit(symbol) || symbol is '.' or '-' or '_' ? symbol : '-'
            ),
        ]).TrimStart('.', '-', '_');
        var subject = SubjectStart + spelled;
        return subject.Length > MostOfSubject ? subject[..MostOfSubject] : subject;
    }

    /// <summary>The act as the log has it.</summary>
    public static LoggedAct ContentOf(AccountAct act)
    {
        ArgumentNullException.ThrowIfNull(act);
        return new(
            DateTimeOffset.FromUnixTimeMilliseconds(act.At.ToUnixTimeMilliseconds()),
            act.What,
            Line(act.By, LoggedActFormat.NameMost),
            Line(act.About, LoggedActFormat.NameMost)
        )
        {
            Detail = string.IsNullOrWhiteSpace(act.Detail)
                ? null
                : Line(act.Detail, LoggedActFormat.DetailMost),
        };
    }

    /// <summary>The same filing, and with it acts that tell of it.</summary>
    internal static FilingPlan.File With(
        ILedgerWriting log,
        FilingPlan.File plan,
        IReadOnlyCollection<AccountAct> noted
    )
    {
        var logged = new List<AccountAct>();
        var beside = new List<AccountAct>();
        foreach (var act in noted)
        {
            if (act.What == AccountAct.SignInLocked)
            {
                var (isDue, told) = Guessed(log, act);
                (isDue ? logged : beside).Add(told);
            }
            else
            {
                logged.Add(act);
            }
        }

        var first = plan.Parts.Length;
        return plan with
        {
            Parts = [.. plan.Parts, .. logged.Select(Part)],
            Also = (writing, placed) =>
            {
                plan.Also?.Invoke(writing, placed);
                foreach (var (act, at) in logged.Select((act, at) => (act, at)))
                {
                    writing.Accounts.Keep(act with { Entry = placed[first + at].Entry.Index });
                }

                foreach (var act in beside)
                {
                    writing.Accounts.Keep(act);
                }
            },
        };
    }

    /// <summary>The act as a part of a filing, which keeps it with its place.</summary>
    internal static FilingPart Part(AccountAct act)
    {
        var content = ContentOf(act);
        return new FilingPart.New(
            new EntryDraft(
                EntryKind.Act,
                SubjectOf(content),
                CanonicalForm.Of(LoggedActFormat.Current.Write(content)).Bytes
            )
        );
    }

    private static (bool IsDue, AccountAct Told) Guessed(ILedgerWriting log, AccountAct act)
    {
        var (last, since) = log.Accounts.LastLogged(act.What, act.About);
        if (last is { } at && act.At - at < GuessingStep)
        {
            return (false, act);
        }

        return (
            true,
            since == 0
                ? act
                : act with
                {
                    Detail = string.Create(
                        CultureInfo.InvariantCulture,
                        $"{since} more before it, not in the log"
                    ),
                }
        );
    }

    // What others sent stands in it, such as the answer of a mail server.
    private static string Line(string text, int most)
    {
        var plain = new string([
            .. text.Select(symbol => char.IsControl(symbol) || char.IsSurrogate(symbol) ? ' ' : symbol),
        ]).Trim();
        return plain.Length > most ? plain[..most].TrimEnd() : plain;
    }
}
