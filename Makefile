# One word each. Every target that needs them makes .venv and its contents first.
.PHONY: setup demo serve test test-browser check bench prove fuzz docs lock clean
.NOTPARALLEL:

BIN := .venv/bin

demo: setup          # examine the six demonstration cars and write their reports to out/demo
	@$(BIN)/witnessmark demo

serve: setup         # open the workshop: the whole job in a browser, on this machine alone
	@$(BIN)/witnessmark serve

test: export PYTHONDONTWRITEBYTECODE =  # what one process has compiled, the others need not
test: check          # the checks, then every test but those of browser and proving ground
	@$(BIN)/pytest -q -n 2 --dist loadfile -m "not prove and not browser"

test-browser: setup  # the tests that drive a real browser (Debian: apt install chromium)
	@$(BIN)/pytest -q tests/browser -m browser

check: setup         # style, types, the law of imports
	@$(BIN)/ruff check .
	@$(BIN)/ruff format --check .
	@$(BIN)/mypy src benchmarks/proving
	@$(BIN)/lint-imports --no-cache --no-logo

bench: setup         # the figures the README may quote
	@$(BIN)/python -m benchmarks

prove: setup         # the tests of bench and proving ground, then how often the weighing misleads, on invented
                     # cars with known truth (CASES=1500: a long run; WORLD=plain: this world only, and no page)
	@$(BIN)/pytest -q -n 2 --dist loadfile -m prove --hypothesis-profile=fuzz
	@$(BIN)/python -m benchmarks.proving --cases $(or $(CASES),200) $(if $(WORLD),--world "$(WORLD)")

fuzz: setup          # every property of `make test` on as many examples as it asks for
	@$(BIN)/pytest -q -n 2 -m "hypothesis and not prove" --hypothesis-profile=fuzz

docs: setup          # write what is generated: the JSON Schemas and columns, the sentences, which books were checked, what they know,
                     # what the weighing is tried on (minutes), the notices of what belongs to others
	@$(BIN)/python bin/schemas
	@$(BIN)/python bin/checked
	@$(BIN)/python bin/catalogue
	@$(BIN)/witnessmark book coverage --write docs/coverage.md
	@$(BIN)/python bin/situations
	@$(BIN)/python bin/notices

lock: setup          # resolve pyproject.toml afresh into requirements.lock
	@bin/lock

clean:               # all that the targets above have made
	@rm -rf .venv .uv out .pytest_cache .mypy_cache .ruff_cache .hypothesis
	@find src tests -name __pycache__ -type d -prune -exec rm -rf {} +

setup:
	@bin/setup
