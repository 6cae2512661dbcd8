using System.CommandLine;

namespace ServiceRules.Cli.Setup;

/// <summary>What is given with an option, or answered by the person at the terminal.</summary>
/// <param name="parsed">The options.</param>
/// <param name="session">The run.</param>
internal sealed class Asked(ParseResult parsed, Session session)
{
    // After that many wrong answers the person is better helped by the docs.
    private const int TriesMost = 5;

    /// <summary>What has to be said.</summary>
    /// <exception cref="InputException">It is not given and there is nobody to ask, or it cannot be read.</exception>
    public T Needed<T>(Option<string?> option, string what, string example, Func<string, T> read)
    {
        if (parsed.GetValue(option) is { } given)
        {
            return read(given);
        }

        if (session.Answers is not { } answers)
        {
            throw new InputException(
                $"{option.Name} is not given: {what}; accepted: `{option.Name} \"{example}\"`"
            );
        }

        for (var tries = 0; tries < TriesMost; tries++)
        {
            session.Error.Write($"{what}, such as {example}: ");
            if (answers.ReadLine() is not { } answer)
            {
                break;
            }

            try
            {
                return read(answer.Trim());
            }
            catch (InputException wrong)
            {
                wrong.Tell(session.Error);
            }
        }

        throw new InputException(
            $"{option.Name} was not answered: {what}; accepted: `{option.Name} \"{example}\"`"
        );
    }

    /// <summary>What may be left out.</summary>
    /// <exception cref="InputException">It cannot be read.</exception>
    public T? Optional<T>(Option<string?> option, Func<string, T> read)
        where T : class => parsed.GetValue(option) is { } given ? read(given) : null;

    /// <summary>All that is given with an option.</summary>
    /// <exception cref="InputException">One cannot be read.</exception>
    public IEnumerable<T> All<T>(Option<string[]> option, Func<string, T> read) =>
        (parsed.GetValue(option) ?? []).Select(read);
}
