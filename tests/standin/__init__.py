"""A loopback stand-in for Discord's API, which an unmodified discord.py bot runs against over real sockets.

    async with StandIn() as standin:                      # tests.standin.server
        async with running(client, standin):              # tests.standin.run; a discord.Client in this process
            await client.tree.sync()                      # or standin.register([...]) for commands of an earlier run
            reply = await standin.slash("load", {"wax": "450g", "load": "8%"})
            assert "36 g" in reply.text
            again = await standin.press("Of the total", reply)

In tests the fixture `standin` gives a started one. Leaving a StandIn raises when a payload of the bot broke a limit of
the platform (it also got 400 for it); `take_violations()` forgives those a test wants.

Asking (each returns a `Reply`, awaited until answered; keywords of `asking.Where` say who, where, how long, `expect`):
    slash(name, options)  autocomplete(name, options, focused)  message_menu(entry, message or text)
    press(custom_id or label, message or reply)  select(custom_id, values, message or reply)
    submit(form's custom_id or the reply that opened it, values)  message(text, mention=..., dm=...)
Around the bot: join leave outage delete deny expire direct_channel; drop reconnect invalidate (these wait until the bot
    is back); fault(kind, *faults) with faults.too_many broken unknown_interaction cut slow refusal, kinds callback
    followup edit message sync direct login; `deliveries=2` and `deadline=0.1` among the keywords.
Seen: calls commands violations; ledger for all the rest. A Reply: text message messages choices modal files ephemeral
    type data statuses edits answered_after; until(...) more(n) edited(n) wait for what comes later.

A process of its own: `running_process(standin, "run", "--config", path)` or `bare=True` gives a `BotProcess` with
    cpu_seconds() rss_mib() peak_mib() stop() ended() printed; `start_process` does not wait for the connection.
Measuring: load.measure(...) and load.first_answer(...). Looking: draw.draw(payload) makes a page of a message or form.
Limits alone: limits.violations(kind, payload).
"""
